//! Bytes of what is asked and said of numbers, spelled out: what stands here never changes under one version.

use super::super::*;
use super::any::NO_NUMBERS;
use super::pinned::{asks, says};
use crate::joint::{Form, Owner};
use crate::numbers::{About, SiteTold};

fn asked(about: About, site: SiteTold) -> Request {
    let pipe = PipeAsked {
        family: 3,
        size: 200,
        class: None,
        form: Form::PlainBevelled,
        owner: Owner::Unknown,
    };
    Request::Numbers(NumbersAsked { pipe, about, site })
}

#[test]
fn numbers_asked() {
    let head = [7, 3, 200, 0, 0, 0];
    for (code, about) in About::ALL.into_iter().enumerate() {
        // Nothing but an open trench: 1 << 15.
        let nothing = [0, code as u8, 0x80, 0x80, 2];
        asks(
            asked(about, SiteTold::NOTHING),
            &[&head[..], &nothing].concat(),
        );
    }
    let told = SiteTold {
        psi: Some(150),
        cover: Some(36),
        soil: Some(9),
        wet: true,
        open: false,
        stick: Some(240),
        fahrenheit: Some(-1),
    };
    // 0x0a28_00f0_0024_4096, seven bits a byte from the lowest.
    assert_eq!(told.packed(), 0x0a28_00f0_0024_4096);
    let site = [0x96, 0x81, 0x91, 0x81, 0x80, 0x9e, 0x80, 0x94, 0x0a];
    asks(
        asked(About::Turn, told),
        &[&head[..], &[0, 10], &site].concat(),
    );
    asks(
        Request::Set(Setting::Told(told)),
        &[&[3, 5], &site[..]].concat(),
    );
}

#[test]
fn numbers_said() {
    // 1.5 and -2 as IEEE 754 has them, the lowest byte first.
    let figures = [1.5_f64, -2.0].map(f64::to_le_bytes);
    let said = NumbersSaid {
        refused: None,
        figures: Records(&figures),
        why: None,
    };
    let bytes = [
        7, 0, 0, 16, 0, 0, 0, 0, 0, 0, 0xf8, 0x3f, 0, 0, 0, 0, 0, 0, 0, 0xc0, 0,
    ];
    says(Response::Numbers(Ok(said)), &bytes);
    for (code, why) in NO_NUMBERS.into_iter().enumerate() {
        let said = NumbersSaid {
            refused: None,
            figures: Records(&[]),
            why: Some(why),
        };
        says(Response::Numbers(Ok(said)), &[7, 0, 0, 0, 1, code as u8]);
        assert_eq!(why as usize, code);
    }
    let refused = NumbersSaid {
        refused: Some(200),
        figures: Records(&[]),
        why: None,
    };
    says(Response::Numbers(Ok(refused)), &[7, 0, 1, 0xc8, 1, 0, 0]);
    says(Response::Numbers(Err(NoPipe::Several)), &[7, 1, 2]);
}

/// Sites that no device takes are no requests.
#[test]
fn sites_that_cannot_be_are_refused() {
    let read = |packed: u64| SiteTold::unpacked(packed);
    assert_eq!(read(0x8000), Some(SiteTold::NOTHING));
    for packed in [1001, 781 << 16, 11 << 32, 781 << 32, 192 << 48] {
        assert_eq!(read(packed), None, "{packed:x}");
    }
    for packed in [1000, 780 << 16, 12 << 32, 780 << 32, 191 << 48, 255 << 56] {
        let told = read(packed).expect("a site");
        assert_eq!(told.packed(), packed, "{packed:x}");
    }
}
