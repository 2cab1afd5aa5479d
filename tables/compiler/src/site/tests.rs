//! Mistakes in the files of site work, and what the notes hold of them.

use super::figures::{DIGGING, SURGE, WATER};
use crate::tests::fixture::{At, folder, mistakes, one, only};

/// The files of site work that go with the small folder.
pub(crate) fn files() -> Vec<(String, String)> {
    let figures = |known: &[(&str, &str, f64, f64)]| {
        known.iter().fold(
            String::from("key,value,unit,what,source,grade\n"),
            |text, (key, unit, low, _)| format!("{text}{key},{low},{unit},figure,notes,practice\n"),
        )
    };
    let texts = [
        (
            "surge/water.csv",
            "set,sound_fps,bulk_psi,what,source,grade\na,4660,300000,a manual,notes,memory\n",
        ),
        (
            "surge/stiffness.csv",
            "families,psi,source,grade,poisson,poisson_source,poisson_grade\n\
             pvc,400000,book;notes,two-sources,0.38,notes,memory\n",
        ),
        (
            "surge/limits.csv",
            "families,rule,recurring,occasional,allowance_psi,irrigation,source,grade\n\
             pvc,a rule,1,1.6,0,no,book,one-source\n",
        ),
        (
            "digging/lays.csv",
            "part,name,how,sizes,lay_in,source,grade\n\
             gate,gate valve,face to face,2,7,notes,memory\n\
             gate,gate valve,face to face,3..6,10.5,notes,memory\n",
        ),
        (
            "digging/taps.csv",
            "owner,way,families,classes,main,most,what,source,grade\n\
             any,direct,pvc,DR 18,6..12,1,a cutter,book,one-source\n\
             ours,saddle,*,*,*,half,above it a tee,notes,practice\n",
        ),
        (
            "digging/cautions.csv",
            "key,when,order,fold,short,full,source,grade\n\
             deep,dig+depth:5 dig+beyond:20,2,no,Shore it.,Shore it all.,book,one-source\n",
        ),
        (
            "water/cautions.csv",
            "key,when,order,fold,short,full,source,grade\n\
             no-air,fill+material:pvc,1,no,No air.,No air at all.,notes,practice\n",
        ),
    ];
    texts
        .into_iter()
        .map(|(name, text)| (name, text.to_owned()))
        .chain([
            ("surge/figures.csv", figures(SURGE)),
            ("water/figures.csv", figures(WATER)),
            ("digging/figures.csv", figures(DIGGING)),
        ])
        .map(|(name, text)| (name.to_owned(), text))
        .collect()
}

#[test]
fn figures_and_lengths_are_read() {
    let sources = crate::read_files(&folder()).expect("clean");
    let site = &sources.site;
    let figure = site.figure("speed-limit").expect("one");
    assert_eq!((figure.value.get(), figure.unit.as_str()), (1.0, "ft/s"));
    assert_eq!(
        site.figures.len(),
        SURGE.len() + WATER.len() + DIGGING.len()
    );
    let lay = |inches| site.lay("gate", inches).map(|lay| lay.inches.get());
    assert_eq!(
        [lay(2.0), lay(2.5), lay(4.0), lay(8.0)],
        [Some(7.0), None, Some(10.5), None]
    );
    let keys: Vec<&str> = site.cautions.iter().map(|one| one.key.as_str()).collect();
    assert_eq!(keys, ["no-air", "deep"], "the worst first");
    assert_eq!(site.stiffness[0].families, [0]);
}

#[test]
fn every_mistake_is_named_where_it_is() {
    let one = |file: &str, change: (usize, &str, &str), at: At<'_>, message: &str| {
        one(file, change, at, message);
    };
    one(
        "surge/water.csv",
        (2, "4660", "466"),
        (2, 3, "466"),
        "\"466\" is no number from 3000 to 6000",
    );
    one(
        "surge/stiffness.csv",
        (2, "pvc", "pvz"),
        (2, 1, "pvz"),
        "unknown family \"pvz\"",
    );
    one(
        "surge/stiffness.csv",
        (2, "pvc", "pvc;pvc"),
        (2, 5, "pvc"),
        "family \"pvc\" is there twice",
    );
    one(
        "surge/stiffness.csv",
        (2, "notes,memory", ",memory"),
        (2, 40, ""),
        "poisson has no source",
    );
    one(
        "surge/limits.csv",
        (2, "1,1.6", "2,1.6"),
        (2, 12, "2"),
        "more for what recurs than for what is rare",
    );
    one(
        "surge/figures.csv",
        (2, "pcf", "psf"),
        (2, 17, "psf"),
        "unknown unit \"psf\"",
    );
    one(
        "digging/figures.csv",
        (2, "practice", "hearsay"),
        (2, 25, "hearsay"),
        "unknown grade \"hearsay\"",
    );
    one(
        "digging/lays.csv",
        (3, "3..6", "2..6"),
        (3, 30, "2..6"),
        "\"gate\" has a length in this size already",
    );
    one(
        "digging/taps.csv",
        (2, "DR 18", "DR 8"),
        (2, 16, "DR 8"),
        "no class \"DR 8\" of these families",
    );
    one(
        "digging/taps.csv",
        (3, "half", "third"),
        (3, 19, "third"),
        "\"third\" is no size of an outlet",
    );
    one(
        "digging/taps.csv",
        (3, "ours", "purveyor"),
        (3, 1, "purveyor"),
        "what a purveyor allows by saddle is told twice",
    );
    one(
        "digging/cautions.csv",
        (2, "depth:5", "depth:x"),
        (2, 10, "depth:x"),
        "\"depth:x\" is no condition",
    );
    one(
        "water/cautions.csv",
        (2, "no-air", "deep"),
        (2, 1, "deep"),
        "key \"deep\" is there twice",
    );
}

#[test]
fn a_figure_that_is_missing_or_unasked_for_is_a_mistake() {
    let mut files = folder();
    let text = files.get_mut("water/figures.csv").expect("the file");
    *text = text.replace("makeup,", "make-up,");
    let found = mistakes(&files);
    let said: Vec<&str> = found.iter().map(|one| one.message.as_str()).collect();
    assert_eq!(said.len(), 2);
    assert!(said.contains(&"unknown figure \"make-up\""));
    assert!(said.contains(&"no figure \"makeup\""));
}

#[test]
fn no_set_of_constants_is_a_mistake() {
    let mut files = folder();
    let text = files.get_mut("surge/water.csv").expect("the file");
    text.truncate(text.find('\n').expect("a header") + 1);
    only(&files, "surge/water.csv", (0, 0, ""), "no set of constants");
}

#[test]
fn one_source_has_one_distance_between_taps() {
    let mut files = folder();
    let outlets = files.get_mut("joints/outlets.csv").expect("the file");
    outlets.push_str("purveyor,3,3/4,18,24,notes,practice\n");
    let found = mistakes(&files);
    let said: Vec<&str> = found.iter().map(|one| one.message.as_str()).collect();
    assert_eq!(
        said,
        [
            "\"tap-apart\" is 18 in joints/outlets.csv, by the same source",
            "\"tap-bell\" is 24 in joints/outlets.csv, by the same source"
        ]
    );
    let figures = files.get_mut("digging/figures.csv").expect("the file");
    *figures = figures.replace("tap-apart,0,", "tap-apart,18,");
    *figures = figures.replace("tap-bell,0,", "tap-bell,24,");
    assert!(crate::read_files(&files).is_ok(), "they agree");
}
