//! What the panel shows, against golden pictures.
//!
//! `SPRINGLINE_RENEW=1 cargo test -p springline-firmware --test screens` writes them anew, and beside them a sheet of all,
//! `screens/all.png`, for a person to look at.

mod common;

use common::{Desk, compare, sheet};
use springline_core::Unit;
use springline_core::link::Setting;
use springline_core::numbers::SiteTold;
use springline_firmware::app::{Input, Screen, Second};
use springline_firmware::board::Key::{Down, Left, Right, Set, Up};

/// A desk whose jaws reach any pipe.
fn reaching() -> Desk {
    let mut desk = Desk::new();
    desk.press(&[Set, Down]);
    desk.press(&[Right; 6]);
    desk.press(&[Set]);
    desk
}

/// A screen and how to come to it.
type Scene = (&'static str, fn() -> Desk);

const SCENES: &[Scene] = &[
    ("start", Desk::new),
    ("settings", || {
        let mut desk = Desk::new();
        desk.press(&[Set, Down, Right]);
        desk
    }),
    ("answer-690", || reaching().gauge(" 6.9043in\r\n")),
    ("answer-690-short-jaws", || {
        Desk::new().gauge(" 6.9043in\r\n")
    }),
    ("others", || reaching().gauge("6.9043in\r\n").keys(&[Down])),
    ("others-2", || {
        reaching().gauge("6.9043in\r\n").keys(&[Down, Down])
    }),
    ("ask-magnet", || {
        reaching().gauge("6.9043in\r\n").keys(&[Set])
    }),
    ("stop-cement", || {
        reaching().gauge("6.9043in\r\n").keys(&[Set, Down, Set])
    }),
    ("ask-material", || {
        reaching()
            .gauge("6.9043in\r\n")
            .keys(&[Set, Down, Set, Set])
    }),
    ("after-plastic", || {
        reaching()
            .gauge("6.9043in\r\n")
            .keys(&[Set, Down, Set, Set, Set])
    }),
    ("settled", settled),
    ("menu", || settled().keys(&[Right])),
    ("menu-last", || settled().keys(&[Right, Up])),
    ("list", || settled().keys(&[Right, Right])),
    ("list-3", || {
        settled().keys(&[Right, Right, Down, Down, Down])
    }),
    ("list-last", || settled().keys(&[Right, Right, Up])),
    ("list-connect", || {
        settled()
            .keys(&[Right, Down, Down, Right])
            .keys(&[Down; 16])
    }),
    ("part", || settled().keys(&[Right, Right, Right])),
    ("part-2", || settled().keys(&[Right, Right, Right, Down])),
    ("part-caution", || {
        settled().keys(&[Right, Right, Right, Right])
    }),
    ("part-last", || {
        settled().keys(&[Right, Right, Right]).keys(&[Down; 40])
    }),
    ("part-never", || settled().keys(&[Right, Right, Up, Right])),
    ("part-asks", || {
        let mut desk = Desk::new();
        // Jaws that reach, and the purveyor's pipe.
        desk.press(&[Set, Down]);
        desk.press(&[Right; 6]);
        desk.press(&[Down, Down, Down, Right, Right, Set]);
        let mut desk = settle(desk);
        desk.press(&[Right, Right]);
        desk
    }),
    ("settings-owner", || {
        Desk::new().keys(&[Set, Down, Down, Down, Down, Left])
    }),
    ("holds", || settled().keys(&[Right, Up, Up, Right])),
    ("cautions", || settled().keys(&[Right, Up, Right])),
    ("cautions-2", || settled().keys(&[Right, Up, Right, Down])),
    ("settings-trench", || {
        let mut desk = Desk::new();
        tell(&mut desk, TOLD);
        desk.keys(&[Set]).keys(&[Down; 7])
    }),
    ("settings-trench-2", || {
        let mut desk = Desk::new();
        tell(&mut desk, TOLD);
        desk.keys(&[Set, Up])
    }),
    ("settings-trench-mm", || {
        let mut desk = Desk::new();
        tell(&mut desk, TOLD);
        desk.keys(&[Set, Right]).keys(&[Down; 6])
    }),
    ("menu-numbers", || settled().keys(&[Right]).keys(&[Down; 6])),
    ("thrust-asks", || numbers(settled(), 0)),
    ("thrust-asks-2", || {
        let mut desk = settled();
        tell(
            &mut desk,
            SiteTold {
                cover: None,
                ..TOLD
            },
        );
        numbers(desk, 0)
    }),
    ("thrust-90", || numbers(told(TOLD), 0)),
    ("thrust-90-2", || numbers(told(TOLD), 0).keys(&[Down])),
    ("thrust-90-3", || numbers(told(TOLD), 0).keys(&[Down, Down])),
    ("thrust-90-4", || numbers(told(TOLD), 0).keys(&[Down; 3])),
    ("thrust-45-filled", || numbers(told(FILLED), 1)),
    ("thrust-22-filled", || numbers(told(FILLED), 2)),
    ("thrust-11-mm", || {
        let mut desk = told(TOLD);
        desk.app.set(Setting::Unit(Unit::Millimetre)).expect("set");
        numbers(desk, 3).keys(&[Down])
    }),
    ("thrust-tee", || numbers(told(FILLED), 4)),
    ("thrust-tee-2", || numbers(told(FILLED), 4).keys(&[Down])),
    ("thrust-end", || numbers(told(FILLED), 5)),
    ("thrust-muck", || {
        numbers(
            told(SiteTold {
                soil: Some(8),
                ..TOLD
            }),
            5,
        )
    }),
    ("thrust-several", || {
        let mut desk = several();
        tell(&mut desk, TOLD);
        numbers(desk, 0)
    }),
    ("thrust-caution", || {
        numbers(told(FILLED), 0).keys(&[Down; 30])
    }),
    ("bolts", || numbers(settled(), 6)),
    ("bolts-2", || numbers(settled(), 6).keys(&[Down])),
    ("bolts-250", || numbers(settled(), 7)),
    ("bolts-mj", || numbers(settled(), 8)),
    ("bolts-mj-2", || numbers(settled(), 8).keys(&[Down])),
    ("goes-in", || numbers(settled(), 9)),
    ("turns", || numbers(told(TOLD), 10)),
    ("turns-several", || {
        let mut desk = several();
        tell(&mut desk, TOLD);
        numbers(desk, 10)
    }),
    ("glue-not", || numbers(told(TOLD), 11)),
    ("glue", || {
        let mut desk = glued();
        tell(&mut desk, TOLD);
        numbers(desk, 11)
    }),
    ("glue-asks", || numbers(glued(), 11)),
    ("glue-goes-in", || numbers(glued(), 9)),
    ("nothing", || {
        reaching().gauge("6.9043in\r\n").keys(&[Right])
    }),
    ("nothing-2", || {
        reaching().gauge("6.9043in\r\n").keys(&[Right, Down])
    }),
    ("nothing-stop", || {
        reaching()
            .gauge("6.9043in\r\n")
            .keys(&[Set, Down, Set, Right])
    }),
    ("nothing-stop-2", || {
        reaching()
            .gauge("6.9043in\r\n")
            .keys(&[Set, Down, Set, Right, Down])
    }),
    ("menu-several", || several().keys(&[Right])),
    ("list-several", || several().keys(&[Right, Right])),
    ("list-several-2", || {
        several().keys(&[Right, Right]).keys(&[Up; 14])
    }),
    ("answer-480", || reaching().gauge("4.800in\r\n")),
    ("answer-several", several),
    ("holds-several", || several().keys(&[Right, Up, Up, Right])),
    ("part-several", || several().keys(&[Right, Right, Right])),
    ("part-not-known", || {
        several()
            .keys(&[Right, Right])
            .keys(&[Up; 14])
            .keys(&[Right])
    }),
    ("outside", || reaching().gauge("5.200in\r\n")),
    ("cross", || reaching().gauge("12.600in\r\n").keys(&[Set])),
    ("crossed", || {
        let mut desk = reaching().gauge("12.600in\r\n");
        desk.until(Screen::Again(Second::Crossed));
        desk.gauge("11.880in\r\n")
    }),
    ("along", || reaching().gauge("7.600in\r\n").keys(&[Set])),
    ("read-along", || {
        let mut desk = reaching().gauge("7.600in\r\n");
        desk.until(Screen::Again(Second::Along));
        desk.gauge("6.900in\r\n")
    }),
    ("unit", || reaching().gauge("175.37\r\n")),
    ("unit-mm", || {
        reaching().gauge("175.37\r\n").keys(&[Down, Set])
    }),
    ("too-small", || reaching().gauge("0.001in\r\n")),
    ("millimetres", || {
        let mut desk = reaching();
        desk.press(&[Set, Right, Set]);
        desk.gauge("110.1mm\r\n")
    }),
];

/// A site that is told.
const TOLD: SiteTold = SiteTold {
    psi: Some(150),
    cover: Some(36),
    soil: None,
    wet: false,
    open: true,
    stick: Some(240),
    fahrenheit: Some(70),
};

/// The same in sand, with the trench filled and sticks of another length.
const FILLED: SiteTold = SiteTold {
    soil: Some(6),
    open: false,
    stick: None,
    ..TOLD
};

fn tell(desk: &mut Desk, told: SiteTold) {
    desk.app.set(Setting::Told(told)).expect("a site");
    desk.settle();
}

/// Blue plastic, and a site that is told.
fn told(told: SiteTold) -> Desk {
    let mut desk = settled();
    tell(&mut desk, told);
    desk
}

/// Numbers by their code, from the answer on: by the menu to those that lead, right from each to the next.
fn numbers(mut desk: Desk, code: usize) -> Desk {
    desk.press(&[Right]);
    let (line, on) = match code {
        0..6 => (6, code),
        6..9 => (7, code - 6),
        _ => (8, code - 9),
    };
    desk.press(&vec![Down; line]);
    desk.press(&[Right]);
    desk.press(&vec![Right; on]);
    desk
}

/// PVC of 2 in that is glued.
fn glued() -> Desk {
    let mut desk = reaching().gauge("2.375in\r\n");
    for _ in 0..4 {
        desk.answer(&[
            ("magnet", "no"),
            ("material", "pvc"),
            ("color", "white"),
            ("pressure", "yes"),
            ("end", "solvent-bell"),
        ]);
        if matches!(desk.app.screen(), Screen::Again(_)) {
            desk.press(&[Set]);
        }
    }
    desk
}

/// Blue plastic that a magnet does not hold: as far as the proposed checks lead.
fn settled() -> Desk {
    settle(reaching())
}

fn settle(desk: Desk) -> Desk {
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

/// One of a few pipes, all of which take parts.
fn several() -> Desk {
    let mut desk = reaching().gauge("4.800in\r\n");
    desk.answer(&[("magnet", "yes"), ("material", "iron")]);
    desk
}

#[test]
fn every_screen_is_as_it_was_looked_at() {
    let mut pictures = Vec::new();
    for (name, scene) in SCENES {
        let mut desk = scene();
        pictures.push((*name, desk.picture()));
    }
    sheet(&pictures);
    for (name, picture) in &pictures {
        compare(name, picture);
    }
}

#[test]
fn buttons_lead_where_they_say() {
    let mut desk = reaching().gauge("6.9043in\r\n");
    let mut at = |key| {
        desk.press(&[key]);
        desk.app.screen()
    };
    assert_eq!(at(Down), Screen::Others(0));
    assert_eq!(at(Left), Screen::Answer);
    assert_eq!(at(Right), Screen::Nothing(0));
    assert_eq!(at(Left), Screen::Answer);
    assert!(matches!(at(Set), Screen::Ask(_, 0)));
    assert!(
        matches!(at(Up), Screen::Ask(_, 2)),
        "the last of yes, no, cannot"
    );
    assert_eq!(at(Set), Screen::Answer);
    assert!(
        matches!(at(Set), Screen::Ask(..)),
        "another check is proposed"
    );
    assert_eq!(at(Left), Screen::Answer);
    assert_eq!(at(Left), Screen::Start);
    assert_eq!(at(Set), Screen::Settings(0));
    assert_eq!(at(Set), Screen::Start);
}

#[test]
fn a_reading_starts_a_new_pipe_wherever_the_panel_is() {
    for keys in [&[][..], &[Down], &[Right, Down], &[Set], &[Set, Down]] {
        let mut desk = reaching().gauge("6.9043in\r\n").keys(keys);
        desk = desk.gauge("8.625in\r\n");
        assert_eq!(desk.app.screen(), Screen::Answer, "{keys:?}");
        assert!(
            desk.picture() == reaching().gauge("8.625in\r\n").picture(),
            "{keys:?}"
        );
    }
}

#[test]
fn a_second_diameter_survives_what_comes_between() {
    let crossing = || {
        let mut desk = reaching().gauge("12.600in\r\n");
        desk.until(Screen::Again(Second::Crossed));
        desk
    };
    let crossed = crossing().gauge("11.880in\r\n").picture();
    // A garbled line and a reading of no pipe are told, and the question stands.
    for between in ["1x.880in\r\n", "0.001in\r\n"] {
        let mut desk = crossing().gauge(between);
        assert_eq!(desk.app.screen(), Screen::Notice, "{between}");
        desk.press(&[Left]);
        assert_eq!(
            desk.app.screen(),
            Screen::Again(Second::Crossed),
            "{between}"
        );
        assert!(desk.gauge("11.880in\r\n").picture() == crossed, "{between}");
        let mut desk = crossing().gauge(between).gauge("11.880in\r\n");
        assert!(desk.picture() == crossed, "{between}");
    }
    // A unit that is asked for first.
    let mut desk = crossing().gauge("11.880\r\n");
    assert_eq!(desk.app.screen(), Screen::GaugeUnit(0));
    desk.press(&[Set]);
    assert!(desk.picture() == crossed);
    // Left takes the question back: what comes then is a new pipe.
    let mut desk = crossing().keys(&[Left]).gauge("11.880in\r\n");
    assert!(desk.picture() == reaching().gauge("11.880in\r\n").picture());
}

#[test]
fn a_torn_line_does_not_spoil_the_next() {
    let mut desk = reaching();
    desk.app.take(Input::Tick(5000));
    desk = desk.gauge("6.90");
    desk.app.take(Input::Tick(5101));
    let mut desk = desk.gauge("8.625in\r\n");
    assert!(desk.picture() == reaching().gauge("8.625in\r\n").picture());
    // A line that comes slowly is whole all the same.
    let mut desk = reaching();
    for (at, letter) in ["8", ".", "6", "2", "5", "in\r"].into_iter().enumerate() {
        // Over the end of the clock.
        let now = u32::MAX
            .wrapping_sub(250)
            .wrapping_add(100 * u32::try_from(at).expect("few"));
        desk.app.take(Input::Tick(now));
        desk = desk.gauge(letter);
    }
    assert_eq!(desk.app.screen(), Screen::Answer);
}

#[test]
fn garbage_changes_nothing() {
    let mut desk = reaching().gauge("6.9043in\r\n");
    let before = desk.picture();
    for noise in [
        "\r\n",
        "xyz\r\n",
        "9.9.9in\r\n",
        "\u{7f}\u{1}",
        "123456789012345678901234567890123456789\r\n",
    ] {
        desk = desk.gauge(noise);
    }
    assert!(desk.picture() == before);
    desk = desk.gauge("\r\n6.9043in\r\n");
    assert!(desk.picture() == before);
}
