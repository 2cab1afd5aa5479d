//! The folder of this repository.

use std::path::Path;

use crate::model::{INCH, MILLIMETRE};

#[test]
fn the_real_folder_reads_clean() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../sources");
    let sources = match crate::read(&folder) {
        Ok(sources) => sources,
        Err(diagnostics) => {
            for diagnostic in &diagnostics {
                println!("{diagnostic}\n");
            }
            panic!("{} mistakes", diagnostics.len());
        }
    };
    // Spot checks against the files, which cite their own sources.
    let c900 = sources.families.iter().find(|family| family.key == "c900");
    let six = c900
        .and_then(|family| family.od.iter().find(|row| row.nominal == "6"))
        .expect("6 in C900");
    assert_eq!(six.od.value, INCH * 69 / 10);
    let iron = sources
        .families
        .iter()
        .find(|family| family.key == "metric-iron");
    let dn150 = iron
        .and_then(|family| family.od.iter().find(|row| row.nominal == "DN150"))
        .expect("DN150");
    assert_eq!(dn150.od.value, MILLIMETRE * 170);
    assert!((sources.settings.instruments.string.step - 0.125).abs() < 1e-12);
    assert_eq!(
        sources.sources.first().map(|source| source.key.as_str()),
        Some("fluids")
    );
}

#[test]
fn a_folder_that_is_not_there_is_one_mistake() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("no-such-folder");
    let diagnostics = crate::read(&folder).expect_err("nothing to read");
    assert_eq!(diagnostics.len(), 1);
    assert!(diagnostics[0].message.starts_with("cannot be read: "));
}
