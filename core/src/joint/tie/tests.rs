//! What needs no image. Chains over the real tables are held against a search of its own in `tests/tests/tie.rs`.

use super::chain::{Chain, On, Piece, Side};
use crate::joint::{Run, Stock};

fn piece(part: u8, near: u8, far: u8) -> Piece {
    let side = |on, end| Side {
        on,
        end,
        own: end,
        size: 0,
        joint: u16::from(end),
    };
    Piece {
        part,
        run: Run::Joins,
        stock: Stock::Counter,
        sides: [side(On::First, near), side(On::Second, far)],
        turns: 0,
    }
}

#[test]
fn a_chain_is_like_what_has_its_joints_or_more_parts() {
    let one = Chain::default().with(piece(1, 4, 5));
    let twin = Chain::default().with(piece(2, 4, 5));
    let longer = one.with(piece(3, 6, 7));
    let other = Chain::default().with(piece(2, 4, 6));
    assert!(one.is_like(&twin) && one.is_like(&longer));
    assert!(!one.is_like(&other) && !longer.is_like(&one));
    assert_eq!((one.len(), longer.len()), (1, 2));
}

#[test]
fn a_chain_takes_no_more_than_it_holds() {
    let mut chain = Chain::default();
    for part in 0..6 {
        chain = chain.with(piece(part, 0, 1));
    }
    let parts: Vec<u8> = chain.pieces().map(|piece| piece.part).collect();
    assert_eq!(parts, [0, 1, 2, 3]);
}
