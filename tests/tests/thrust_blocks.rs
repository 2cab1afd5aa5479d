//! Blocks that are none, and the shape of those that are.

mod ground;

use ground::near;
use springline_core::thrust::block::{self, Ground, NoBlock, face};
use springline_core::unit::{Area, Distance, Duration};

/// No block in shallow, filled or cut ground, before it has cured, or wider than twice its height.
#[test]
fn blocks_that_are_none() {
    let good = Ground {
        cover: Distance::feet(3.0),
        least_cover: Distance::feet(2.0),
        fill: false,
        cut: None,
        reach: 2.0,
        cure: Duration::days(3.0),
        back: None,
    };
    let of =
        |area: f64, ground: &Ground| face(Area::square_feet(area), Distance::inches(6.9), ground);
    let shape = of(4.0, &good).expect("a block");
    assert!(near(shape.height.in_feet(), 2.0) && near(shape.width.in_feet(), 2.0));
    assert!(shape.height <= block::tallest(shape.base(good.cover, Distance::inches(6.9))));
    assert_eq!(
        of(
            4.0,
            &Ground {
                cover: Distance::feet(1.9),
                ..good
            }
        ),
        Err(NoBlock::Cover)
    );
    assert_eq!(of(4.0, &Ground { fill: true, ..good }), Err(NoBlock::Fill));
    assert_eq!(
        of(
            4.0,
            &Ground {
                cut: Some(Distance::feet(8.0)),
                ..good
            }
        ),
        Err(NoBlock::Cut)
    );
    assert!(
        of(
            4.0,
            &Ground {
                cut: Some(Distance::feet(9.0)),
                ..good
            }
        )
        .is_ok()
    );
    assert_eq!(
        of(
            4.0,
            &Ground {
                back: Some(Duration::hours(71.0)),
                ..good
            }
        ),
        Err(NoBlock::Cure)
    );
    assert!(
        of(
            4.0,
            &Ground {
                back: Some(Duration::hours(72.0)),
                ..good
            }
        )
        .is_ok()
    );
    assert_eq!(of(25.0, &good), Err(NoBlock::Shape));
    // Shallower, it is as tall as half the depth of its own base, and wider for it.
    let shallow = Ground {
        cover: Distance::feet(2.0),
        ..good
    };
    let low = of(4.0, &shallow).expect("a block");
    let most = block::tallest(low.base(shallow.cover, Distance::inches(6.9)));
    assert!(near(low.height.in_feet(), most.in_feet()) && low.width > low.height);
    assert!(near((low.height * low.width).in_square_feet(), 4.0));
}
