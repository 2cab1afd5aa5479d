use crate::tests::fixture::{folder, mistakes, one, only, with};

const FLANGES: &str = "assembly/flanges.csv";
const MECHANICAL: &str = "assembly/mechanical.csv";
const CURES: &str = "assembly/cure.csv";

#[test]
fn what_is_read() {
    let sources = crate::read_files(&folder()).expect("clean");
    let assembly = &sources.assembly;
    let four = &assembly.flanges[0];
    assert_eq!((four.size, four.bolts, four.bolt), (16, 8, 1_587_500));
    assert_eq!(assembly.flanges[2].thick_and_length, None);
    assert_eq!(
        assembly.mechanical[1].minutes.as_ref().map(|m| m.0),
        Some(498)
    );
    assert_eq!(assembly.cures[0].wet, 15);
    assert_eq!(assembly.quantities[0].joints, 3000);
    assert_eq!(assembly.constants[0].value, 125);
}

#[test]
fn flanges_that_cannot_be() {
    let eight = (2, "0.75,8,", "0.75,6,");
    one(
        FLANGES,
        eight,
        (2, 22, "6"),
        "6 bolts are no multiple of four",
    );
    let outside = (2, "9,7.5,", "8,7.5,");
    one(
        FLANGES,
        outside,
        (2, 13, "7.5"),
        "the bolts stand outside the flange",
    );
    let hole = (2, "0.75,8", "0.6,8");
    one(
        FLANGES,
        hole,
        (2, 17, "0.6"),
        "the bolt does not go into its hole",
    );
    let many = (2, "0.75,8,", "0.75,24,");
    one(
        FLANGES,
        many,
        (2, 22, "24"),
        "the heads of these bolts touch",
    );
    let short = (2, "0.94,3,", "0.94,2.5,");
    one(
        FLANGES,
        short,
        (2, 50, "2.5"),
        "a bolt of 2.5 in is not of these flanges",
    );
    let order = (2, "4,125/150", "8,125/150");
    one(FLANGES, order, (3, 1, "6"), "out of order");
    let third = (2, "0.625", "0.62");
    one(
        FLANGES,
        third,
        (2, 24, "0.62"),
        "bolt diameter of \"0.62\" is not in 1/16 in",
    );
    let bare = (4, "notes,practice,,,,", "notes,practice,0.9,,,");
    let files = with(FLANGES, bare.0, bare.1, bare.2);
    assert!(
        mistakes(&files).len() >= 2,
        "a thickness alone is not enough"
    );
}

#[test]
fn joints_that_cannot_be() {
    let swapped = (2, "45,60", "60,45");
    one(
        MECHANICAL,
        swapped,
        (2, 52, "60"),
        "the least torque is more than the most",
    );
    let odd = (2, "6.19,4,", "6.19,5,");
    one(MECHANICAL, odd, (2, 27, "5"), "5 bolts are not in pairs");
    let metric = (2, "3,2.5", "DN80,2.5");
    one(
        MECHANICAL,
        metric,
        (2, 1, "DN80"),
        "\"DN80\" is no whole quarter of an inch",
    );
}

#[test]
fn cement_takes_no_less_when_it_is_colder_or_larger() {
    one(
        CURES,
        (3, "40,60,120,180,4", "40,60,120,180,1"),
        (3, 9, "120"),
        "takes less than a smaller or warmer joint (60 to 100 F)",
    );
    one(
        CURES,
        (4, "60,100,60,", "60,100,20,"),
        (4, 10, "20"),
        "takes less than a smaller or warmer joint (60 to 100 F)",
    );
    one(
        CURES,
        (3, "3,40,60", "3,40,50"),
        (3, 3, "40"),
        "out of order",
    );
    one(
        CURES,
        (2, "180,2,12", "180,2,1"),
        (2, 3, "60"),
        "runs backwards",
    );
}

#[test]
fn the_rest() {
    let deflection = "assembly/deflection.csv";
    one(deflection, (3, "180", "400"), (3, 14, "60"), "out of order");
    let quantities = "assembly/quantities.csv";
    one(quantities, (3, "10", "50"), (3, 8, "6"), "out of order");
    let constants = "assembly/constants.csv";
    let files = with(constants, 5, "oiled,0.75,notes,practice", "");
    only(&files, constants, (0, 0, ""), "no row for \"oiled\"");
    one(
        constants,
        (5, "0.75", "1.75"),
        (5, 7, "1.75"),
        "oiled \"1.75\" is out of range",
    );
    let mut files = folder();
    files.remove("assembly/steps.csv");
    only(&files, "assembly/steps.csv", (0, 0, ""), "file not found");
}
