//! Puts the chosen board's memory map where the linker finds it.

#[path = "build/letters.rs"]
mod letters;

use std::path::{Path, PathBuf};
use std::{env, fs};

/// Boards by the feature that chooses them.
const BOARDS: [(&str, &str); 3] = [
    ("CARGO_FEATURE_BOARD_LM3S6965EVB", "lm3s6965evb"),
    ("CARGO_FEATURE_BOARD_MPS2_AN385", "mps2-an385"),
    ("CARGO_FEATURE_BOARD_RP2040", "rp2040"),
];

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-changed=build");
    letters::write();
    // A host has its own linker script; `--all-features` there must still link.
    if env::var("CARGO_CFG_TARGET_OS").as_deref() != Ok("none") {
        return;
    }
    let chosen = BOARDS
        .iter()
        .find(|(feature, _)| env::var_os(feature).is_some());
    let Some((_, board)) = chosen else { return };
    let map = Path::new("boards").join(board).join("memory.x");
    let out = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets OUT_DIR"));
    fs::copy(&map, out.join("memory.x")).expect("the board's memory map can be copied");
    println!("cargo::rerun-if-changed={}", map.display());
    println!("cargo::rustc-link-search={}", out.display());
    // Without --nmagic the linker may align sections to pages that the part does not have.
    for argument in ["--nmagic", "-Tlink.x"] {
        println!("cargo::rustc-link-arg-bins={argument}");
    } // The log's sections are for the one program that has a log: the others must keep their sizes.
    if env::var_os("CARGO_FEATURE_HANDHELD_LM3S6965EVB").is_some() {
        println!("cargo::rustc-link-arg-bin=lm3s6965evb=-Tdefmt.x");
    }
}
