//! The driver against panels that keep what they are sent.

mod glass;

use std::boxed::Box;
use std::vec::Vec;

use embedded_graphics::Pixel;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::prelude::*;
use embedded_hal::i2c::{ErrorKind, ErrorType, Operation};
use proptest::prelude::*;

use super::*;
use glass::{Glass, REFUSED};

fn dots(dots: impl IntoIterator<Item = (i32, i32)>) -> Frame {
    let mut frame = Frame::new();
    let pixels = dots.into_iter();
    let Ok(()) = frame.draw_iter(pixels.map(|(x, y)| Pixel(Point::new(x, y), BinaryColor::On)));
    frame
}

/// Steps until the picture is shown; how many.
fn finish(driver: &mut Ssd1306, panel: &mut Glass) -> usize {
    let mut steps = 0;
    while !driver.is_shown() {
        // The first steps may find another kind.
        let _ = driver.step(panel);
        steps += 1;
        assert!(steps < 200, "never done");
    }
    steps
}

#[test]
fn every_kind_is_found_set_up_and_lit_last() {
    for (mut panel, wrong, set_up) in [
        (Glass::emitting(), 0, SSD1306.set_up),
        (Glass::reflecting(), 1, ST7567.set_up),
    ] {
        let mut driver = Ssd1306::new(KINDS);
        // Set up, every part, lit.
        for _ in 0..wrong + 1 + PARTS {
            assert!(!panel.lit, "lit with noise");
            let _ = driver.step(&mut panel);
        }
        assert!(panel.holds(&Frame::new()) && !driver.is_shown());
        assert_eq!(driver.step(&mut panel), Ok(()));
        assert!(panel.lit && driver.is_shown());
        assert_eq!(panel.told, &set_up[1..]);
        let transfers = panel.transfers;
        assert_eq!(driver.step(&mut panel), Ok(()));
        assert_eq!(panel.transfers, transfers, "nothing is left to do");
    }
}

#[test]
fn a_place_is_told_by_page_and_two_halves_of_a_column() {
    /// Keeps the transfers.
    struct Listener(Vec<Vec<u8>>);
    impl ErrorType for Listener {
        type Error = ErrorKind;
    }
    impl I2c for Listener {
        fn transaction(
            &mut self,
            address: u8,
            operations: &mut [Operation<'_>],
        ) -> Result<(), ErrorKind> {
            assert_eq!(address, 0x3c);
            for operation in operations {
                if let Operation::Write(bytes) = operation {
                    self.0.push(bytes.to_vec());
                }
            }
            Ok(())
        }
    }
    let mut panel = Glass::emitting();
    let mut driver = Ssd1306::new(KINDS);
    finish(&mut driver, &mut panel);
    let mut listener = Listener(Vec::new());
    driver.show(&dots([(97, 42), (97, 44)]));
    assert_eq!(driver.step(&mut listener), Ok(()));
    let mut data = Vec::from([0x40]);
    data.resize(33, 0);
    // Row 42 is the third of page 5, and column 97 the second from 96.
    data[2] = 0b1_0100;
    assert_eq!(listener.0, [Vec::from([0x00, 0xb5, 0x16, 0x00]), data]);
}

#[test]
fn a_changed_pixel_sends_its_part_and_nothing_else() {
    let mut panel = Glass::emitting();
    let mut driver = Ssd1306::new(KINDS);
    finish(&mut driver, &mut panel);
    // Every column and every row, twice and four times.
    for at in 0..256 {
        let (x, y) = (at % 128, at * 37 % 64);
        (panel.data, panel.longest) = (0, 0);
        let frame = dots([(x, y)]);
        driver.show(&frame);
        let steps = finish(&mut driver, &mut panel);
        assert!(panel.holds(&frame), "{x} {y}");
        // The pixel before it goes, too.
        assert!(steps <= 2 && panel.data == 32 * steps, "{x} {y}");
        assert!(panel.longest <= 33);
        driver.show(&frame);
        assert!(driver.is_shown(), "the same picture again");
    }
}

#[test]
fn pictures_that_change_above_do_not_keep_what_is_below_waiting() {
    let mut panel = Glass::emitting();
    let mut driver = Ssd1306::new(KINDS);
    finish(&mut driver, &mut panel);
    // Every step there is another picture, whose upper half differs.
    for at in 0..32 {
        let above = (0..32).flat_map(|y| (0..128).map(move |x| (x, y)));
        let changing = above.filter(|(x, y)| (x + y + at) % 2 == 0);
        driver.show(&dots(changing.chain([(127, 63)])));
        let _ = driver.step(&mut panel);
    }
    assert_eq!(panel.memory[7][127], 0x80);
}

#[test]
fn a_refused_byte_is_sent_again_wherever_it_was() {
    let frame = dots((0..64).map(|at| (at * 2, at)));
    // From the first of the set-up to the last of the picture.
    for fuel in 0..32 + 32 * 37 + 2 {
        let mut panel = Glass::emitting();
        let mut driver = Ssd1306::new(KINDS);
        driver.show(&frame);
        panel.fuel = fuel;
        let mut refused = 0;
        while refused == 0 && !driver.is_shown() {
            refused += usize::from(driver.step(&mut panel).is_err());
        }
        panel.fuel = usize::MAX;
        finish(&mut driver, &mut panel);
        assert!(panel.holds(&frame) && panel.lit, "{fuel} bytes");
    }
}

#[test]
fn a_panel_that_lost_its_power_is_set_up_again() {
    let mut panel = Glass::reflecting();
    let mut driver = Ssd1306::new(KINDS);
    finish(&mut driver, &mut panel);
    panel.lose_power();
    // Without a word.
    driver.renew();
    finish(&mut driver, &mut panel);
    assert!(panel.holds(&Frame::new()) && panel.lit);
    // For so long that a byte is refused.
    panel.lose_power();
    panel.fuel = 0;
    let frame = dots([(3, 3)]);
    driver.show(&frame);
    for _ in 0..5 {
        assert_eq!(driver.step(&mut panel), Err(REFUSED));
        assert!(!driver.is_shown());
    }
    panel.fuel = usize::MAX;
    finish(&mut driver, &mut panel);
    assert!(panel.holds(&frame) && panel.lit);
    assert_eq!(panel.told, &ST7567.set_up[1..]);
}

#[test]
fn a_loop_pauses_after_a_refusal_and_renews_the_picture_now_and_then() {
    // Across the wrap of the clock.
    let start = u32::MAX - 50;
    let mut tended = Panel::new(Glass::reflecting());
    tended.renewed = start;
    let frame = dots([(64, 32)]);
    tended.show(&frame);
    // Nobody is there, then somebody else: the second try succeeds.
    assert!(!tended.tend(start));
    for after in 1..PAUSE {
        assert!(!tended.tend(start.wrapping_add(after)));
    }
    assert_eq!(tended.bus.transfers, 1);
    let mut now = start.wrapping_add(PAUSE);
    for _ in 0..PARTS + 2 {
        assert!(tended.tend(now));
    }
    assert!(tended.bus.lit && tended.bus.holds(&frame));
    let transfers = tended.bus.transfers;
    tended.bus.lose_power();
    while now.wrapping_sub(start) < RENEWAL {
        assert!(!tended.tend(now));
        now = now.wrapping_add(1);
    }
    assert_eq!(tended.bus.transfers, transfers);
    while tended.tend(now) {}
    assert!(tended.bus.lit && tended.bus.holds(&frame));
}

/// What may happen to a panel and its driver.
#[derive(Clone, Debug)]
enum Happens {
    Picture(Box<[u8; 1024]>),
    Dot(i32, i32),
    Steps(usize),
    /// After so many more bytes one is refused.
    Refusal(usize),
    /// The panel forgets everything and says nothing.
    PowerLost,
}

fn happens() -> impl Strategy<Value = Happens> {
    let picture = proptest::collection::vec(any::<u8>(), 1024);
    prop_oneof![
        2 => picture.prop_map(|bytes| Happens::Picture(Box::new(bytes.try_into().expect("1024 bytes")))),
        2 => (0..128, 0..64).prop_map(|(x, y)| Happens::Dot(x, y)),
        4 => (1..50usize).prop_map(Happens::Steps),
        2 => (0..400usize).prop_map(Happens::Refusal),
        1 => Just(Happens::PowerLost),
    ]
}

fn of_bytes(bytes: &[u8; 1024]) -> Frame {
    let places = (0..64).flat_map(|y| (0..128).map(move |x| (x, y)));
    let bits = bytes
        .iter()
        .flat_map(|byte| (0..8).map(move |bit| byte >> (7 - bit) & 1 == 1));
    dots(
        places
            .zip(bits)
            .filter(|(_, lit)| *lit)
            .map(|(place, _)| place),
    )
}

proptest! {
    #[test]
    fn when_all_is_done_the_panel_holds_the_picture(
        reflecting in any::<bool>(),
        all in proptest::collection::vec(happens(), 1..30),
    ) {
        let mut panel = if reflecting { Glass::reflecting() } else { Glass::emitting() };
        let mut driver = Ssd1306::new(KINDS);
        let mut frame = Frame::new();
        let mut forgot = false;
        for happens in all {
            match happens {
                Happens::Picture(bytes) => frame = of_bytes(&bytes),
                Happens::Dot(x, y) => {
                    let Ok(()) = frame.draw_iter([Pixel(Point::new(x, y), BinaryColor::On)]);
                }
                Happens::Steps(count) => {
                    for _ in 0..count {
                        if driver.step(&mut panel).is_err() {
                            panel.fuel = usize::MAX;
                        }
                        prop_assert!(forgot || !panel.lit || !panel.told.is_empty());
                    }
                }
                Happens::Refusal(after) => panel.fuel = after,
                Happens::PowerLost => {
                    panel.lose_power();
                    forgot = true;
                }
            }
            driver.show(&frame);
        }
        if forgot {
            driver.renew();
        }
        while !driver.is_shown() && driver.step(&mut panel).is_ok() {}
        panel.fuel = usize::MAX;
        finish(&mut driver, &mut panel);
        prop_assert!(panel.holds(&frame) && panel.lit);
        prop_assert!(panel.longest <= 33);
    }
}
