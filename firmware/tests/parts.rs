//! From the answer to a part: where buttons lead, and that a stop leads to none.

mod common;

use common::Desk;
use springline_core::image::Image;
use springline_core::joint::{Form, Owner, Pipe, Task, fits};
use springline_firmware::app::Screen;
use springline_firmware::board::Key::{self, Down, Left, Right, Set, Up};
use springline_tables::IMAGE;

/// A desk whose jaws reach any pipe.
fn reaching() -> Desk {
    let mut desk = Desk::new();
    desk.press(&[Set, Down]);
    desk.press(&[Right; 6]);
    desk.press(&[Set]);
    desk
}

fn told(line: &str, answers: &[(&str, &str)]) -> Desk {
    let mut desk = reaching().gauge(line);
    desk.answer(answers);
    desk
}

/// What blue PVC with a bell answers.
const BLUE: &[(&str, &str)] = &[
    ("magnet", "no"),
    ("material", "pvc"),
    ("color", "blue"),
    ("pressure", "yes"),
    ("end", "gasketed-bell"),
];

/// C900 of 6 in, which the clues settle.
fn settled() -> Desk {
    told("6.9043in\r\n", BLUE)
}

#[test]
fn a_press_leads_to_the_menu_two_to_parts_three_to_one() {
    let mut desk = settled();
    let mut at = |key: Key| {
        desk.press(&[key]);
        desk.app.screen()
    };
    assert_eq!(at(Right), Screen::Menu(0));
    assert_eq!(at(Right), Screen::List(Task::Repair, 0));
    assert_eq!(at(Down), Screen::List(Task::Repair, 1));
    assert_eq!(at(Right), Screen::Part(Task::Repair, 1, 0));
    assert_eq!(at(Down), Screen::Part(Task::Repair, 1, 1));
    assert_eq!(at(Up), Screen::Part(Task::Repair, 1, 0));
    assert_eq!(at(Up), Screen::Part(Task::Repair, 1, 0), "the first page");
    assert_eq!(at(Left), Screen::List(Task::Repair, 1));
    assert_eq!(at(Left), Screen::Menu(0));
    assert_eq!(at(Up), Screen::Menu(10));
    assert_eq!(at(Set), Screen::Cautions(0));
    assert_eq!(at(Right), Screen::Cautions(1));
    assert_eq!(at(Left), Screen::Menu(10));
    assert_eq!(at(Up), Screen::Menu(9));
    assert_eq!(at(Right), Screen::Holds(0));
    assert_eq!(at(Left), Screen::Menu(9));
    for line in [8, 7, 6, 5] {
        assert_eq!(at(Up), Screen::Menu(line));
    }
    assert_eq!(at(Right), Screen::List(Task::Join, 0));
    assert_eq!(at(Left), Screen::Menu(5));
    assert_eq!(at(Left), Screen::Answer);
    assert_eq!(at(Down), Screen::Others(0));
    assert_eq!(at(Right), Screen::Menu(0));
}

/// Each task's list goes around, and has as many parts as the core says serve it.
#[test]
fn every_part_that_serves_a_task_is_there() {
    let image = Image::new(IMAGE).expect("the built-in image");
    let mut rows = image.rows_from(0);
    let named = |row: &springline_core::image::Row| {
        image.packed_text(image.family(row.family).key) == "c900" && image.size(row.size) == "6"
    };
    let row = rows.find(named).expect("C900 of 6 in");
    let pipe = Pipe {
        row,
        variants: image.variants_of(&row),
        form: Form::PlainSquare,
    };
    let mut desk = settled().keys(&[Right]);
    for (at, task) in (0u8..).zip(Task::ALL) {
        let all = fits(&image, &pipe, Owner::Unknown);
        let count = all.filter(|fit| fit.does(&image, *task)).count();
        assert_eq!(desk.app.screen(), Screen::Menu(at));
        desk.press(&[Right, Up]);
        let last = u8::try_from(count).expect("few") - 1;
        assert_eq!(desk.app.screen(), Screen::List(*task, last));
        desk.press(&[Down]);
        assert_eq!(desk.app.screen(), Screen::List(*task, 0));
        desk.press(&[Left, Down]);
    }
}

/// Of every part of a task each page differs from the one before it, and right leads to what could hurt.
#[test]
fn every_page_of_a_part_says_something() {
    let mut desk = settled().keys(&[Right]);
    let mut pages = 0;
    for (at, task) in (0u8..).zip(Task::ALL) {
        if ![Task::Repair, Task::Outlet].contains(task) {
            desk.press(&[Down]);
            continue;
        }
        desk.press(&[Right]);
        loop {
            let Screen::List(_, part) = desk.app.screen() else {
                panic!("{:?}", desk.app.screen())
            };
            desk.press(&[Right]);
            let mut before = desk.picture();
            loop {
                let here = desk.app.screen();
                desk.press(&[Down]);
                if desk.app.screen() == here {
                    break;
                }
                pages += 1;
                let now = desk.picture();
                assert!(now != before, "{here:?}");
                before = now;
            }
            let last = desk.app.screen();
            desk.press(&[Left, Right, Right]);
            let Screen::Part(_, _, first) = desk.app.screen() else {
                panic!("{:?}", desk.app.screen())
            };
            assert!(first > 0, "{task:?} {part}: there is always a caution");
            let Screen::Part(_, _, end) = last else {
                panic!("{last:?}")
            };
            desk.press(&vec![Right; usize::from(end - first)]);
            assert_eq!(desk.app.screen(), last);
            desk.press(&[Left, Down]);
            if desk.app.screen() == Screen::List(*task, 0) {
                break;
            }
        }
        desk.press(&[Left]);
        assert_eq!(desk.app.screen(), Screen::Menu(at));
        desk.press(&[Down]);
    }
    assert!(pages > 150, "{pages}");
}

/// A stop has no parts, nor has what is left open too wide; no button leads to one.
#[test]
fn a_stop_has_no_parts() {
    for (line, keys) in [
        ("6.9043in\r\n", &[Set, Down, Set][..]),
        ("6.9043in\r\n", &[]),
        ("5.200in\r\n", &[]),
    ] {
        let mut desk = reaching().gauge(line).keys(keys).keys(&[Right]);
        assert_eq!(desk.app.screen(), Screen::Nothing(0));
        desk.press(&[Down, Right, Right, Up, Right, Right, Right]);
        assert!(matches!(desk.app.screen(), Screen::Nothing(at) if at > 0));
        desk.press(&[Left]);
        assert_eq!(desk.app.screen(), Screen::Answer);
        desk.press(&[Down, Right]);
        assert_eq!(desk.app.screen(), Screen::Nothing(0));
    }
}

/// The purveyor's pipe is another list.
#[test]
fn the_owner_is_asked_about_by_setting() {
    let list = |owner: usize| {
        let mut desk = Desk::new();
        desk.press(&[Set, Down]);
        desk.press(&[Right; 6]);
        desk.press(&[Down; 3]);
        desk.press(&vec![Right; owner]);
        desk.press(&[Set]);
        let mut desk = desk.gauge("6.9043in\r\n");
        desk.answer(BLUE);
        desk.press(&[Right, Right]);
        assert!(matches!(desk.app.screen(), Screen::List(Task::Repair, 0)));
        desk.picture()
    };
    assert!(list(0) == list(1) && list(0) != list(2) && list(0) == list(3));
}
