//! From the answer to numbers: up and right, and on to the others.

mod common;

use common::Desk;
use springline_core::numbers::About;
use springline_firmware::app::Screen;
use springline_firmware::board::Key::{self, Down, Left, Right, Set, Up};

/// C900 of 6 in, which the clues settle.
fn settled() -> Desk {
    let mut desk = Desk::new();
    desk.press(&[Set, Down]);
    desk.press(&[Right; 6]);
    desk.press(&[Set]);
    let mut desk = desk.gauge("6.9043in\r\n");
    desk.answer(&[
        ("magnet", "no"),
        ("material", "pvc"),
        ("color", "blue"),
        ("pressure", "yes"),
        ("end", "gasketed-bell"),
    ]);
    desk
}

#[test]
fn numbers_are_two_presses_from_the_answer() {
    let desk = settled().keys(&[Up, Right]);
    assert_eq!(desk.app.screen(), Screen::Numbers(About::ALL[0], 0));
    for (line, first) in [(6, 0), (7, 6), (8, 9)] {
        let mut desk = settled().keys(&[Right]).keys(&vec![Down; line]);
        desk.press(&[Right]);
        assert_eq!(desk.app.screen(), Screen::Numbers(About::ALL[first], 0));
        // Right leads through all of them and around.
        for on in 1..=12 {
            desk.press(&[Right]);
            let about = About::ALL[(first + on) % 12];
            assert_eq!(desk.app.screen(), Screen::Numbers(about, 0));
        }
        desk.press(&[Down]);
        assert_eq!(desk.app.screen(), Screen::Numbers(About::ALL[first], 1));
        desk.press(&[Up, Left]);
        let line = u8::try_from(line).expect("few lines");
        assert_eq!(desk.app.screen(), Screen::Menu(line));
    }
}

#[test]
fn numbers_lead_to_what_is_told_of_the_trench_and_back() {
    let mut desk = settled().keys(&[Right]).keys(&[Down; 6]).keys(&[Right]);
    let asks = desk.picture();
    let mut at = |keys: &[Key]| {
        desk.press(keys);
        desk.app.screen()
    };
    assert_eq!(at(&[Set]), Screen::Settings(5));
    // 40, 50, 60 psi; then the cover, 12, 18, 24 in.
    assert_eq!(at(&[Right, Right, Right, Down]), Screen::Settings(6));
    assert_eq!(
        at(&[Right, Right, Right, Set]),
        Screen::Numbers(About::ALL[0], 0)
    );
    let told = desk.app.settings().told;
    assert_eq!((told.psi, told.cover), (Some(60), Some(24)));
    assert!(desk.picture() != asks);
    // From the start they lead to the start.
    desk.press(&[Left, Left, Left]);
    assert_eq!(desk.app.screen(), Screen::Start);
    desk.press(&[Set, Set]);
    assert_eq!(desk.app.screen(), Screen::Start);
}

/// Whatever is told, every page of every number is drawn, differs from the one before it, and says after backfill with a length.
#[test]
fn every_page_says_something() {
    let mut desk = settled().keys(&[Right]).keys(&[Down; 6]).keys(&[Right]);
    let mut pages = 0;
    for _ in 0..12 {
        loop {
            let before = (desk.app.screen(), desk.picture());
            desk.press(&[Down]);
            pages += 1;
            if desk.app.screen() == before.0 {
                break;
            }
            assert!(desk.picture() != before.1, "{:?}", desk.app.screen());
        }
        desk.press(&[Right]);
    }
    assert!(pages > 40, "{pages}");
}
