//! What the application costs: from the last byte of a reading to the picture, and to the picture with the check.

use core::hint::black_box;

use semihosting::println;
use springline_core::image::Image;
use springline_core::link::{Setting, Text};
use springline_firmware::app::{App, Effect, Identity, Input};

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
