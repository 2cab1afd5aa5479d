//! What the application costs: from the last byte of a reading to the picture, and to the picture with the check.

use core::hint::black_box;

use semihosting::println;
use springline_core::image::Image;
use springline_core::link::{Setting, Text};
use springline_core::numbers::SiteTold;
use springline_firmware::app::{App, Effect, Identity, Input, Screen};
use springline_firmware::board::Key;

use crate::board::Counter;
use crate::costs::Spread;
use crate::stack::Painted;

/// Every quarter of an inch over the whole range: a picture costs nearly the same for all.
#[inline(never)]
pub(crate) fn application(counter: &Counter, image: &Image<'static>) {
    let text = |text| Text::new(text).unwrap_or_default();
    let identity = Identity {
        model: text("measured"),
        serial: text("0"),
        firmware: text("0"),
        data_set: text("built-in"),
        counter: 0,
        digest: [0; 32],
    };
    let mut app = App::new(*image, identity);
    measure(counter, &mut app, "panel_chord");
    // Jaws that reach any pipe see a diameter.
    if app.set(Setting::JawDepth(None)).is_ok() {
        measure(counter, &mut app, "panel");
        parts(counter, &mut app);
        numbers(counter, &mut app);
    }
    println!("application_bytes {}", size_of::<App<'_>>());
}

#[inline(never)]
fn measure(counter: &Counter, app: &mut App<'_>, key: &str) {
    let (mut first, mut last) = (Spread::new(), Spread::new());
    let mut stack = 0;
    for mils in (400..40_000).step_by(250) {
        for byte in line(mils) {
            app.take(Input::Gauge(byte));
        }
        settle(app);
        let painted = Painted::below();
        let (instructions, _) = counter.count(|| picture(black_box(app)));
        let (more, ()) = counter.count(|| settle(app));
        stack = stack.max(painted.touched());
        first.add(instructions, mils);
        last.add(instructions.saturating_add(more), mils);
    }
    // The picture first, and the one with the check to make next.
    first.print(key);
    let (worst, check) = (last.worst(), key);
    println!("{check}_check_worst {worst}");
    println!("{key}_stack {stack}");
}

/// From the press of a button to the longest list, of what is connected, and to a part of it with its cautions.
#[inline(never)]
fn parts(counter: &Counter, app: &mut App<'_>) {
    let (mut list, mut part) = (Spread::new(), Spread::new());
    let mut stack = 0;
    for mils in (400..40_000).step_by(50) {
        for byte in line(mils) {
            app.take(Input::Gauge(byte));
        }
        app.take(Input::Gauge(b'\r'));
        settle(app);
        press(app, &[Key::Right]);
        if app.screen() != Screen::Menu(0) {
            continue;
        }
        press(app, &[Key::Down, Key::Down]);
        let painted = Painted::below();
        let (instructions, ()) = counter.count(|| press(black_box(app), &[Key::Right]));
        list.add(instructions, mils);
        let (instructions, ()) = counter.count(|| press(black_box(app), &[Key::Right]));
        part.add(instructions, mils);
        stack = stack.max(painted.touched());
    }
    list.print("panel_list");
    part.print("panel_part");
    println!("panel_parts_stack {stack}");
}

/// From the press of a button to what holds a dead end, in the worst soil of as many pipes as are left, and to the longest of the
/// other numbers.
#[inline(never)]
fn numbers(counter: &Counter, app: &mut App<'_>) {
    let told = SiteTold {
        psi: Some(150),
        cover: Some(36),
        stick: Some(240),
        fahrenheit: Some(70),
        ..SiteTold::NOTHING
    };
    if app.set(Setting::Told(told)).is_err() {
        return;
    }
    let (mut thrust, mut others) = (Spread::new(), Spread::new());
    let mut stack = 0;
    for mils in (400..40_000).step_by(50) {
        for byte in line(mils) {
            app.take(Input::Gauge(byte));
        }
        app.take(Input::Gauge(b'\r'));
        settle(app);
        press(app, &[Key::Right]);
        if app.screen() != Screen::Menu(0) {
            continue;
        }
        press(app, &[Key::Down; 6]);
        let painted = Painted::below();
        for at in 0..12 {
            let (instructions, ()) = counter.count(|| press(black_box(app), &[Key::Right]));
            let spread = if at < 6 { &mut thrust } else { &mut others };
            spread.add(instructions, mils);
        }
        stack = stack.max(painted.touched());
    }
    thrust.print("panel_thrust");
    others.print("panel_numbers");
    println!("panel_numbers_stack {stack}");
}

#[inline(never)]
fn press(app: &mut App<'_>, keys: &[Key]) {
    for key in keys {
        app.take(Input::Key(*key));
        settle(app);
    }
}

/// The end of the line, and the picture that it makes.
#[inline(never)]
fn picture(app: &mut App<'_>) -> bool {
    app.take(Input::Gauge(b'\r'));
    matches!(app.effect(), Some(Effect::Show(_)))
}

#[inline(never)]
fn settle(app: &mut App<'_>) {
    while app.effect().is_some() {}
}

/// A reading in inches, all but the end of its line.
fn line(mils: i32) -> [u8; 8] {
    let digit = |power: i32| b'0' + u8::try_from(mils / power % 10).unwrap_or(0);
    [
        digit(10_000),
        digit(1000),
        b'.',
        digit(100),
        digit(10),
        digit(1),
        b'i',
        b'n',
    ]
}
