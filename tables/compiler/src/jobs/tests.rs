//! The real job files, and the same spoilt in one place.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use super::{Jobs, read_files};
use crate::model::Sources;

type Files = BTreeMap<String, String>;

static REAL: LazyLock<(Sources, Files)> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../sources");
    let sources = crate::read(&folder).expect("the sources read clean");
    let text = |name: &str| fs::read_to_string(folder.join(name)).expect(name);
    let files = super::FILES.map(|name| (name.to_owned(), text(name)));
    (sources, files.into())
});

fn real() -> Jobs {
    read_files(&REAL.1, &REAL.0).expect("they read clean")
}

/// One replacement in one file, and the one mistake that it makes.
fn spoil(file: &str, from: &str, to: &str, message: &str) {
    let mut files = REAL.1.clone();
    let text = files.get_mut(file).expect(file);
    assert!(text.contains(from), "{from} is in {file}");
    *text = text.replacen(from, to, 1);
    let found = read_files(&files, &REAL.0).expect_err(message);
    let texts: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found.len(), 1, "{}", texts.join("\n"));
    assert!(found[0].message.contains(message), "{}", texts[0]);
    assert!(!found[0].help.is_empty() && found[0].line > 0 || message.starts_with("no row"));
}

/// Common practice, no source: which jobs there must be.
#[test]
fn six_repairs_and_what_is_put_into_a_line() {
    let jobs = real();
    let words: Vec<&str> = jobs.jobs.iter().map(|job| job.words.as_str()).collect();
    for repair in ["split", "gasket", "bell", "fitting", "saddle", "valve"] {
        assert!(
            words.contains(&format!("repair {repair}").as_str()),
            "{repair}"
        );
    }
    for job in [
        "cut-in tee",
        "cut-in valve",
        "tie-in",
        "stub",
        "outlet",
        "manifold",
        "road",
    ] {
        assert!(words.contains(&job), "{job}");
    }
}

#[test]
fn mistakes_are_named() {
    spoil(
        "jobs/ways.csv",
        "A sleeve-mj P",
        "A sleeve-mk P",
        "unknown part \"sleeve-mk\"",
    );
    spoil(
        "jobs/ways.csv",
        "A sleeve-mj P",
        "A P",
        "do not lie in one line",
    );
    spoil(
        "jobs/ways.csv",
        "A ~ K ~ B",
        "A ~ ~ B",
        "do not lie in one line",
    );
    spoil(
        "jobs/ways.csv",
        "A ~ K ~ B",
        "K ~ B",
        "do not lie in one line",
    );
    spoil(
        "jobs/ways.csv",
        "split gasket bell,slip",
        "split gaskets bell,slip",
        "unknown job \"gaskets\"",
    );
    spoil(
        "jobs/lines.csv",
        "said:dry-unknown",
        "said:dry-maybe",
        "unknown circumstance",
    );
    spoil("jobs/lines.csv", "2*wire", "2*wires", "is no quantity");
    spoil("jobs/lines.csv", "2*wire", "0*wire", "is no quantity");
    spoil("jobs/lines.csv", "act:cut", "act:saw", "unknown act");
    spoil(
        "jobs/lines.csv",
        "job:manifold",
        "job:manifolds",
        "unknown job",
    );
    spoil(
        "jobs/holders.csv",
        "wedge-iron,no,yes",
        "wedge-irons,no,yes",
        "unknown restraint",
    );
    spoil(
        "jobs/holders.csv",
        "counter,practice,practice",
        "shelf,practice,practice",
        "unknown place",
    );
    spoil(
        "jobs/weights.csv",
        "tee-mj,4,35",
        "tee-mj,4,0",
        "is no weight",
    );
    spoil("jobs/sticks.csv", "pip,20 22", "pip,22 20", "not in order");
    spoil("jobs/rules.csv", "cut-back", "cut-off", "unknown rule");
    spoil(
        "jobs/lines.csv",
        "{cut-back}",
        "{cut}",
        "unknown blank \"{cut}\"",
    );
    spoil("jobs/lines.csv", "{2 ft}", "{2 feet}", "unknown blank");
}

/// What is left out is missed as well.
#[test]
fn what_is_missing_is_named() {
    let row = |file: &str, start: &str| {
        let text = &REAL.1[file];
        let found = text.lines().find(|line| line.starts_with(start));
        format!("{}\n", found.expect(start))
    };
    let gone = row("jobs/holders.csv", "wedge-pvc");
    spoil("jobs/holders.csv", &gone, "", "no row for \"wedge-pvc\"");
    let mut files = REAL.1.clone();
    let rules = files.get_mut("jobs/rules.csv").expect("rules");
    *rules = rules.replace(&row("jobs/rules.csv", "hand-lift"), "");
    let found = read_files(&files, &REAL.0).expect_err("a rule is gone");
    assert_eq!(found[0].message, "no rule \"hand-lift\"");
    let mut files = REAL.1.clone();
    let ways = files.get_mut("jobs/ways.csv").expect("ways");
    *ways = ways.replace(&row("jobs/ways.csv", "tie-in,"), "");
    let found = read_files(&files, &REAL.0).expect_err("a job without a way");
    assert_eq!(found[0].message, "no way to do \"tie-in\"");
}
