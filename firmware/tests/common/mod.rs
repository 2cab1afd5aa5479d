//! The application on a desk: bytes and keys in, pictures out.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "each file of tests takes what it needs"
)]

use std::fs::{self, File};
use std::io::BufWriter;
use std::path::PathBuf;

use springline_core::image::Image;
use springline_core::link::Text;
use springline_firmware::app::{App, Effect, Identity, Input, Screen};
use springline_firmware::board::Key;
use springline_firmware::frame::{Frame, HEIGHT, WIDTH};
use springline_tables::IMAGE;

/// The application, its picture, and what it sent.
pub struct Desk {
    pub app: App<'static>,
    pub shown: Frame,
    pub sent: Vec<u8>,
    /// Pictures that were shown.
    pub pictures: usize,
}

impl Desk {
    pub fn new() -> Self {
        let text = |text| Text::new(text).expect("a short text");
        let identity = Identity {
            model: text("desk"),
            serial: text("0"),
            firmware: text("test"),
            data_set: text("built-in"),
            counter: 1,
            digest: [7; 32],
        };
        let mut desk = Self {
            app: App::new(Image::new(IMAGE).expect("the built-in image"), identity),
            shown: Frame::new(),
            sent: Vec::new(),
            pictures: 0,
        };
        desk.settle();
        desk
    }

    /// Does everything that is to be done.
    pub fn settle(&mut self) {
        while let Some(effect) = self.app.effect() {
            match effect {
                Effect::Show(frame) => {
                    self.shown = frame.clone();
                    self.pictures += 1;
                }
                Effect::Send(bytes) => self.sent.extend_from_slice(bytes),
            }
        }
    }

    pub fn press(&mut self, keys: &[Key]) {
        for key in keys {
            self.app.take(Input::Key(*key));
            self.settle();
        }
    }

    pub fn keys(mut self, keys: &[Key]) -> Self {
        self.press(keys);
        self
    }

    pub fn gauge(mut self, line: &str) -> Self {
        for byte in line.bytes() {
            self.app.take(Input::Gauge(byte));
            self.settle();
        }
        self
    }

    /// Presses set and answers that it cannot be told, until a screen comes.
    pub fn until(&mut self, screen: Screen) {
        for _ in 0..12 {
            self.press(&[Key::Set]);
            if self.app.screen() == screen {
                return;
            }
            assert!(
                matches!(self.app.screen(), Screen::Ask(..)),
                "{:?}",
                self.app.screen()
            );
            self.press(&[Key::Up, Key::Set]);
        }
        panic!("{screen:?} never came");
    }

    /// Answers what is asked as long as it is one of these.
    pub fn answer(&mut self, answers: &[(&str, &str)]) {
        let image = Image::new(IMAGE).expect("the built-in image");
        loop {
            self.press(&[Key::Set]);
            let Screen::Ask(clue, _) = self.app.screen() else {
                return;
            };
            let record = image.clue(clue);
            let key = image.packed_text(record.key);
            let Some((_, wanted)) = answers.iter().find(|(held, _)| *held == key) else {
                return self.press(&[Key::Left]);
            };
            let mut all = record.first..record.first + record.answers;
            let at = all.position(|at| image.packed_text(image.clue_answer(at).key) == *wanted);
            self.press(&vec![Key::Down; at.expect(wanted)]);
            self.press(&[Key::Set]);
        }
    }

    pub fn picture(&mut self) -> Frame {
        self.settle();
        self.shown.clone()
    }
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/screens")
}

fn renewing() -> bool {
    std::env::var_os("SPRINGLINE_RENEW").is_some()
}

/// Writes grey pixels as a PNG.
fn write(name: &str, width: usize, height: usize, pixels: &[u8]) {
    fs::create_dir_all(folder()).expect("a folder");
    let file = File::create(folder().join(name)).expect("a file");
    let size = |pixels| u32::try_from(pixels).expect("a small picture");
    let mut encoder = png::Encoder::new(BufWriter::new(file), size(width), size(height));
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().expect("a header");
    writer.write_image_data(pixels).expect("pixels");
}

fn grey(frame: &Frame) -> Vec<u8> {
    let lit = |at: usize| {
        if frame.is_lit(at % WIDTH, at / WIDTH) {
            255
        } else {
            0
        }
    };
    (0..WIDTH * HEIGHT).map(lit).collect()
}

/// Holds a picture against the golden one.
pub fn compare(name: &str, frame: &Frame) {
    let file = format!("{name}.png");
    let pixels = grey(frame);
    if renewing() {
        return write(&file, WIDTH, HEIGHT, &pixels);
    }
    let golden =
        File::open(folder().join(&file)).unwrap_or_else(|_| panic!("no golden picture {file}"));
    let mut reader = png::Decoder::new(std::io::BufReader::new(golden))
        .read_info()
        .expect("a PNG");
    let mut held = vec![0; reader.output_buffer_size().expect("a small picture")];
    reader.next_frame(&mut held).expect("a picture");
    assert!(
        held == pixels,
        "{file} has changed; renew it and look at all.png"
    );
}

/// Writes a sheet of all pictures, twice as large, when they are renewed.
pub fn sheet(pictures: &[(&str, Frame)]) {
    const ACROSS: usize = 3;
    const CELL: (usize, usize) = (2 * WIDTH + 8, 2 * HEIGHT + 8);
    if !renewing() {
        return;
    }
    let down = pictures.len().div_ceil(ACROSS);
    let (width, height) = (ACROSS * CELL.0, down * CELL.1);
    let mut pixels = vec![96; width * height];
    for (at, (_, frame)) in pictures.iter().enumerate() {
        let (left, top) = ((at % ACROSS) * CELL.0 + 4, (at / ACROSS) * CELL.1 + 4);
        for y in 0..2 * HEIGHT {
            for x in 0..2 * WIDTH {
                let lit = frame.is_lit(x / 2, y / 2);
                pixels[(top + y) * width + left + x] = if lit { 255 } else { 0 };
            }
        }
    }
    write("all.png", width, height, &pixels);
}
