//! Compiles `sources/` into the image and the notes that the crate embeds.

use std::path::Path;
use std::{env, fs};

fn main() {
    println!("cargo::rerun-if-changed=sources");
    let compiled = match springline_compiler::compile(Path::new("sources")) {
        Ok(compiled) => compiled,
        Err(diagnostics) => {
            for diagnostic in &diagnostics {
                println!(
                    "cargo::error=tables/sources/{}",
                    diagnostic.to_string().replace('\n', " | ")
                );
            }
            return;
        }
    };
    let out = env::var("OUT_DIR").expect("cargo sets OUT_DIR");
    let write = |name: &str, bytes: &[u8]| {
        fs::write(Path::new(&out).join(name), bytes).expect("OUT_DIR can be written");
    };
    write("image.bin", &compiled.image);
    write("notes.bin", &compiled.notes);
    let set = format!(
        "pub(crate) static NAME: &str = {:?};\npub(crate) static COUNTER: u32 = {};\npub(crate) static DIGEST: [u8; 32] = {:?};\n",
        compiled.name, compiled.counter, compiled.digest
    );
    write("set.rs", set.as_bytes());
}
