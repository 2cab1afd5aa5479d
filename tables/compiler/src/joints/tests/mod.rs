//! Tests on the real folder, spoilt in one place.

mod groups;
mod image;
mod real;
mod spoilt;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use super::{Joints, read_files};
use crate::diagnostic::Diagnostic;
use crate::model::Sources;

type Files = BTreeMap<String, String>;

/// The sources of this repository and the joint files in them.
static REAL: LazyLock<(Sources, Files)> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../sources");
    let sources = crate::read(&folder).expect("the other sources read clean");
    let mut files = Files::new();
    for entry in fs::read_dir(folder.join("joints")).expect("joints/") {
        let path = entry.expect("a file").path();
        if path.extension().is_some_and(|extension| extension == "csv") {
            let name = path
                .file_name()
                .and_then(|name| name.to_str())
                .expect("UTF-8");
            let text = fs::read_to_string(&path).expect("UTF-8");
            files.insert(format!("joints/{name}"), text);
        }
    }
    let cautions = fs::read_to_string(folder.join("cautions.csv")).expect("cautions.csv");
    files.insert("cautions.csv".to_owned(), cautions);
    (sources, files)
});

/// The joints of this repository.
fn real() -> (&'static Sources, Joints) {
    let (sources, files) = &*REAL;
    match read_files(files, sources) {
        Ok(joints) => (sources, joints),
        Err(found) => {
            for diagnostic in &found {
                println!("{diagnostic}\n");
            }
            panic!("{} mistakes", found.len());
        }
    }
}

/// The mistakes in files.
fn mistakes(files: &Files) -> Vec<Diagnostic> {
    read_files(files, &REAL.0).err().unwrap_or_default()
}
