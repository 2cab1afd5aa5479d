//! The command as its user meets it: what it says, and whether that is what it said before.
//!
//! `SPRINGLINE_RENEW=1 cargo test -p springline` writes the golden texts anew; read the difference.

#![allow(
    dead_code,
    unreachable_pub,
    reason = "each file of tests takes what it needs"
)]

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::Value;

/// What the command said: standard output, standard error, exit code.
pub fn springline(args: &[&str]) -> (String, String, i32) {
    typed(args, "")
}

/// The same with something typed at it.
pub fn typed(args: &[&str], keys: &str) -> (String, String, i32) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_springline"))
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the command starts");
    if let Some(mut stdin) = child.stdin.take() {
        // A command that reads nothing may have ended already.
        let _ = stdin.write_all(keys.as_bytes());
    }
    let output = child.wait_with_output().expect("it ends");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("UTF-8");
    (
        text(output.stdout),
        text(output.stderr),
        output.status.code().unwrap_or(-1),
    )
}

/// The JSON that the command says, and its exit code.
pub fn json(args: &[&str]) -> (Value, i32) {
    let (out, err, code) = springline(args);
    let value = serde_json::from_str(&out).unwrap_or_else(|_| panic!("{args:?}: {out}{err}"));
    (value, code)
}

/// Holds everything that the command says against a golden text.
pub fn golden(name: &str, args: &[&str]) {
    golden_typed(name, args, "");
}

/// The same with something typed at it.
pub fn golden_typed(name: &str, args: &[&str], keys: &str) {
    let (out, err, code) = typed(args, keys);
    let quoted: Vec<String> = args
        .iter()
        .map(|arg| {
            if arg.is_empty() || arg.contains(' ') {
                format!("'{arg}'")
            } else {
                (*arg).to_owned()
            }
        })
        .collect();
    let got = format!(
        "$ springline {}\n{out}{err}[exit {code}]\n",
        quoted.join(" ")
    );
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/golden")
        .join(format!("{name}.txt"));
    if std::env::var_os("SPRINGLINE_RENEW").is_some() {
        fs::write(&path, &got).expect("the golden text can be written");
        return;
    }
    let want = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        got == want,
        "{} has changed:\n{got}\nit was:\n{want}",
        path.display()
    );
}
