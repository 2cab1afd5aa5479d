//! The handheld's program on the emulated board: its two ports, its buttons, its panel.

use std::io::{BufRead, BufReader, Read, Write};
use std::os::unix::net::UnixStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use serde_json::{Value, json};
use springline_core::link::{MAX_FRAME, Receiver, Reply, Request, Response};

/// How long anything may take before it is given up.
const PATIENCE: Duration = Duration::from_secs(10);
/// Pixels of the panel.
const WIDTH: usize = 128;
/// Rows of the panel.
const HEIGHT: usize = 64;

/// A picture, a pixel each, row by row.
pub type Picture = Vec<bool>;

/// A running emulator.
pub struct Handheld {
    emulator: Child,
    folder: PathBuf,
    gauge: Option<UnixStream>,
    host: UnixStream,
    control: BufReader<UnixStream>,
    sequence: u8,
}

impl Handheld {
    /// Boots the program that `cargo handheld` has built.
    ///
    /// # Panics
    ///
    /// When there is no such program, no emulator, or it does not come up.
    #[must_use]
    pub fn boot() -> Self {
        let elf = elf();
        assert!(
            elf.is_file(),
            "{} is missing: cargo handheld",
            elf.display()
        );
        let folder = env::temp_dir().join(format!(
            "handheld-{}-{:?}",
            std::process::id(),
            thread::current().id()
        ));
        fs::create_dir_all(&folder).expect("a folder for sockets");
        let socket =
            |name: &str| format!("unix:{},server=on,wait=off", folder.join(name).display());
        let emulator = Command::new("qemu-system-arm")
            .args(["-M", "lm3s6965evb", "-display", "none", "-monitor", "none"])
            .args([
                "-serial",
                &socket("gauge"),
                "-serial",
                &socket("host"),
                "-qmp",
                &socket("control"),
            ])
            .args(["-semihosting-config", "enable=on,target=native", "-kernel"])
            .arg(&elf)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("qemu-system-arm starts");
        let connect = |name: &str| connect(&folder.join(name));
        let mut handheld = Self {
            gauge: Some(connect("gauge")),
            host: connect("host"),
            control: BufReader::new(connect("control")),
            emulator,
            folder,
            sequence: 0,
        };
        handheld.said();
        handheld.order("qmp_capabilities", &json!({}));
        handheld
    }

    /// Sends bytes as a gauge does.
    ///
    /// # Panics
    ///
    /// When the emulator is gone.
    pub fn gauge(&mut self, bytes: &[u8]) {
        let port = self.gauge.as_mut().expect("the gauge is plugged in");
        port.write_all(bytes).expect("the emulator takes bytes");
    }

    /// Pulls the gauge out and plugs it in again.
    pub fn replug(&mut self) {
        self.gauge = None;
        thread::sleep(Duration::from_millis(50));
        self.gauge = Some(connect(&self.folder.join("gauge")));
    }

    /// Sends bytes as a host does, and says nothing of what comes back.
    ///
    /// # Panics
    ///
    /// When the emulator is gone.
    pub fn noise(&mut self, bytes: &[u8]) {
        self.host
            .write_all(bytes)
            .expect("the emulator takes bytes");
    }

    /// Asks, and hands on what is said.
    ///
    /// # Panics
    ///
    /// When nothing is said, or not to this.
    pub fn ask<T>(&mut self, request: &Request, take: impl FnOnce(Response<'_>) -> T) -> T {
        self.sequence = self.sequence.wrapping_add(1);
        let mut buffer = [0; MAX_FRAME];
        let frame = request
            .write(self.sequence, &mut buffer)
            .expect("room for any");
        self.host
            .write_all(frame)
            .expect("the emulator takes bytes");
        let mut receiver = Receiver::new();
        let mut bytes = [0; MAX_FRAME];
        loop {
            let count = self.host.read(&mut bytes).expect("a response in time");
            assert!(count > 0, "the emulator is gone");
            for byte in &bytes[..count] {
                if let Some(Ok(payload)) = receiver.push(*byte) {
                    let reply = Reply::read(payload).expect("a response");
                    assert_eq!(reply.sequence, self.sequence);
                    return take(reply.said);
                }
            }
        }
    }

    /// Presses a button: `up`, `down`, `left`, `right`, `ctrl` for set.
    pub fn press(&mut self, key: &str) {
        let keys = json!({ "keys": [{ "type": "qcode", "data": key }], "hold-time": 60 });
        self.order("send-key", &keys);
        // The next press must find the button released.
        thread::sleep(Duration::from_millis(150));
    }

    /// Waits until the panel shows a picture.
    ///
    /// # Panics
    ///
    /// When it never does.
    pub fn shows(&mut self, wanted: &Picture, what: &str) {
        let start = Instant::now();
        while self.picture() != *wanted {
            assert!(start.elapsed() < PATIENCE, "the panel never showed {what}");
            thread::sleep(Duration::from_millis(20));
        }
    }

    /// What the panel shows.
    pub fn picture(&mut self) -> Picture {
        let file = self.folder.join("panel.png");
        self.order(
            "screendump",
            &json!({ "filename": file.display().to_string(), "format": "png" }),
        );
        picture(&file)
    }

    /// Gives the emulator an order and waits for its answer.
    fn order(&mut self, what: &str, arguments: &Value) {
        let order = json!({ "execute": what, "arguments": arguments }).to_string();
        let port = self.control.get_mut();
        port.write_all(order.as_bytes())
            .expect("the emulator listens");
        loop {
            let said = self.said();
            assert!(said.get("error").is_none(), "{what}: {said}");
            if said.get("return").is_some() {
                return;
            }
        }
    }

    fn said(&mut self) -> Value {
        let mut line = String::new();
        self.control
            .read_line(&mut line)
            .expect("the emulator answers");
        serde_json::from_str(&line).expect("JSON")
    }
}

impl Drop for Handheld {
    fn drop(&mut self) {
        let _ = self.emulator.kill();
        let _ = self.emulator.wait();
        let _ = fs::remove_dir_all(&self.folder);
    }
}

/// The program: where `SPRINGLINE_HANDHELD` says, or where `cargo handheld` puts it.
fn elf() -> PathBuf {
    let built = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../target/thumbv7m-none-eabi/firmware/lm3s6965evb"
    );
    env::var_os("SPRINGLINE_HANDHELD").map_or_else(|| PathBuf::from(built), PathBuf::from)
}

fn connect(path: &Path) -> UnixStream {
    let start = Instant::now();
    loop {
        if let Ok(stream) = UnixStream::connect(path) {
            stream.set_read_timeout(Some(PATIENCE)).expect("a timeout");
            return stream;
        }
        assert!(start.elapsed() < PATIENCE, "no {}", path.display());
        thread::sleep(Duration::from_millis(10));
    }
}

/// The pixels of a PNG: the panel's own size, or the emulator's picture of it, which is four times as large.
///
/// # Panics
///
/// When it is no such picture.
#[must_use]
pub fn picture(file: &Path) -> Picture {
    let open = fs::File::open(file).unwrap_or_else(|_| panic!("no {}", file.display()));
    let mut reader = png::Decoder::new(BufReader::new(open))
        .read_info()
        .expect("a PNG");
    let mut bytes = vec![0; reader.output_buffer_size().expect("a small picture")];
    let info = reader.next_frame(&mut bytes).expect("a picture");
    let scale = info.width as usize / WIDTH;
    let samples = info.color_type.samples();
    let lit = |x: usize, y: usize| {
        let at = (y * scale + scale / 2) * info.line_size + (x * scale + scale / 2) * samples;
        bytes[at] > 127
    };
    (0..HEIGHT)
        .flat_map(|y| (0..WIDTH).map(move |x| (x, y)))
        .map(|(x, y)| lit(x, y))
        .collect()
}
