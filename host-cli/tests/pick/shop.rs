//! A shop with tables of its own.

use crate::common::springline;

/// A shop changes the job files and is listed what it wrote: no code.
#[test]
fn a_shop_edits_its_jobs() {
    let from = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../tables/sources");
    let to = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("pick-sources");
    // What an older run left there would be in no table of today.
    let _ = std::fs::remove_dir_all(&to);
    for entry in std::fs::read_dir(&from).expect("the sources") {
        let path = entry.expect("an entry").path();
        let copy = |path: &std::path::Path| {
            let to = to.join(path.strip_prefix(&from).expect("below"));
            std::fs::create_dir_all(to.parent().expect("a folder")).expect("it is made");
            std::fs::copy(path, to).expect("it is copied");
        };
        if path.is_dir() {
            for entry in std::fs::read_dir(&path).expect("a folder") {
                copy(&entry.expect("an entry").path());
            }
        } else {
            copy(&path);
        }
    }
    let ask = |args: &[&str]| {
        let folder = to.to_str().expect("UTF-8");
        let base = ["pick", "stub", "c900", "8", "--tables", folder];
        springline(&[&base, args].concat())
    };
    let (own, _, _) = springline(&["pick", "stub", "c900", "8"]);
    assert_eq!(ask(&[]).0, own, "a copy says the same");
    let lines = to.join("jobs/lines.csv");
    let text = std::fs::read_to_string(&lines).expect("lines");
    let row = "tool,900,coffee,job:stub,3,truck,flask of coffee,practice,practice\n";
    std::fs::write(&lines, format!("{text}{row}")).expect("it is written");
    assert!(ask(&[]).0.contains("3 x flask of coffee"));
    std::fs::write(&lines, format!("{text}{}", row.replace("stub", "stubs"))).expect("written");
    let (_, err, code) = ask(&[]);
    assert!(
        code == 2 && err.contains("unknown job \"stubs\"") && err.contains("jobs/lines.csv"),
        "{err}"
    );
}
