//! A small folder that reads clean, and what a test needs to spoil it.

use crate::diagnostic::Diagnostic;
use crate::report::Files;

const OD: &str = "\
nominal,variant,series,standard,od_in,od_source,od_grade,plus_in,minus_in,tol_source,tol_grade,out_of_round_in,oor_source,oor_grade,row_share,exception
4,,New,Std,4.800,book,standard,0.009,0.009,notes,memory,,,,,
# a remark

6,,New,\"Std, new\",6.900,book;notes,two-sources,0.011,0.011,notes,memory,0.050,book,one-source,0.6,
6,old,Old,Std,6.900,book,standard,,,,,,,,0.4,
";

const CLASSES: &str = "\
nominal,variant,series,class,wall_in,wall_kind,wall_source,wall_grade,psi,psi_source,psi_grade,exception
4,,New,DR 18,0.267,min,book,standard,235,book,standard,
6,,New,DR 18,0.383,min,book,standard,235,book,standard,
6,old,Old,DR 18,0.390,min,book,standard,150,notes,memory,An old table prints a thicker wall
";

const METRIC_OD: &str = "\
nominal,variant,series,standard,od_mm,od_source,od_grade,plus_mm,minus_mm,tol_source,tol_grade,out_of_round_mm,oor_source,oor_grade,row_share,exception
160mm,,ISO,Std,160,book,standard,1.0,0,book,standard,,,,,
";

const METRIC_CLASSES: &str = "\
nominal,variant,series,class,wall_mm,wall_kind,wall_source,wall_grade,psi,psi_source,psi_grade,exception
";

const FAMILIES: &str = r#"[[family]]
key = "pvc"
name = "PVC"
od_system = "iron"
material = "pvc"
carries = "water"
thermal_per_f = 3e-5
thermal_source = "book"
thermal_grade = "one-source"
wear_in = 0.000
oval = 0.0016
squash = { mean = 0.004, sd = 0.004 }
irrigation = 60
municipal = 75.5
size_weights = "inch"
source = "notes"
grade = "practice"

[[family]]
key = "pe"
name = "metric PE"
od_system = "metric"
material = "pe"
carries = "water"
thermal_per_f = 9e-5
thermal_source = "book;notes"
thermal_grade = "two-sources"
wear_in = 0.000
oval = 0.006
loose = { share = 0.05, width = 3 }
irrigation = 40.0
municipal = 24.5
size_weights = "od"
source = "notes"
grade = "practice"
"#;

const SERIES: &str = r#"[[series]]
family = "pvc"
series = "New"
hds_psi = 2000
source = "book"

[[series]]
family = "pvc"
series = "Old"
printed = true
source = "notes"
"#;

const SYSTEMS: &str = r#"[[system]]
key = "iron"
label = "iron size"

[[system]]
key = "metric"
label = "metric"
"#;

const SOURCES: &str = r#"[notes]
title = "Notes"
kind = "memory"
where = "no source"

[book]
title = "A standard"
kind = "standard"
where = "address withheld"
"#;

const SETTINGS: &str = r#"[set]
name = "test"
counter = 1
[temperature]
reference = 73.4
mean = 75.0
sd = 17.0
told_sd = 4.0
[tolerance]
memory_widening = 1.25
blank_share = 0.005
blank = 0.010
[coat]
share = 0.45
thickness = 0.020
[sight]
springline_share = 0.70
springline_half_angle = 23.0
clock_half_angle = 15.0
[outside]
bell_share = 0.0035
bell_low = 1.05
bell_high = 1.30
misread_share = 0.0015
unlisted_share = 0.005
low = 0.5
high = 72.0
[site]
unknown_irrigation = 0.6
unknown_municipal = 0.4
[sizes]
other_weight = 0.0005
[answer]
settled_rest = 0.001
outside_at_least = 0.5
likely = 0.95
shown = 0.0005
counted = 0.02
cement_warning = 0.001
gas_warning = 0.01
[instrument.caliper]
sigma = 0.003
[instrument.diameter-tape]
sigma = 0.004
[instrument.steel-tape]
sigma = 0.030
[instrument.string]
sigma = 0.060
[instrument.chord]
sigma = 0.060
[instrument.rise]
sigma = 0.045
[instrument.jaw]
sigma = 0.020
[instrument.wall]
sigma = 0.015
[clues]
disguise_share = 0.01
plans_family_right = 0.90
plans_size_right = 0.93
contradiction = 0.02
[print]
legible = 0.5
misread = 0.01
foreign = 0.003
[checks]
crossed_minutes = 1.0
tape_dug_minutes = 3.0
tape_minutes = 20.0
along_minutes = 1.0
print_minutes = 2.0
wall_minutes = 4.0
doubt_share = 0.15
[wall]
plastic_over = 0.12
metal_sd = 0.04
low = 0.05
high = 2.0
"#;

const CLUES: &str = r#"[[clue]]
key = "magnet"
question = "Does it hold?"
minutes = 0.1
disguised = true
source = "notes"
grade = "practice"
answer = [
    { key = "yes", words = "it holds" },
    { key = "no", words = "it does not hold", means = ["cement"] },
]
"#;

const MAGNET: &str = "\
families,yes,no,source,grade
pvc,0.015,0.985,notes,practice
others,0.25,0.75,book,standard
";

const DIFFERENCES: &str = "\
family,nominal,variant,series,class,field,kept,kept_source,other,other_source,reason
pvc,6,,New,,od_in,6.9,book,6.8,notes,A slip
pvc,6,old,Old,DR 18,psi,150,notes,235,book,The editions differ
pe,160mm,,ISO,,plus_mm,1.0,book,1.5,notes,An older edition
";

const JOINTS: [(&str, &str); 10] = [
    (
        "joints/outlets.csv",
        "owner,mains,most,apart_in,bell_in,source,grade\n",
    ),
    (
        "cautions.csv",
        "key,triggers,order,fold,short,full,source,grade\n",
    ),
    (
        "joints/ends.csv",
        "key,name,role,jobs,by,or,form,dry,psi,gasket,pack,tools,source,grade\n\
        bell,bell,fits,coupling,size,,,no,,,,,notes,practice\n",
    ),
    (
        "joints/variants.csv",
        "family,variant,name,classes,sizes,source,grade\n\
        pvc,all,PVC,*,*,notes,practice\npe,all,PE,*,*,notes,practice\n",
    ),
    ("joints/sets.csv", "set,of,members\n"),
    (
        "joints/matrix.csv",
        "variants,forms,ends,sizes,verdict,kind,need,reason,source,grade\n\
        pvc/*,*,*,*,fits,,,made for it,notes,practice\n\
        pe/*,*,*,*,no,dimension,,another OD,notes,practice\n",
    ),
    (
        "joints/restraints.csv",
        "key,name,use,variants,material,system,ends,sizes,remark,source,grade\n",
    ),
    (
        "joints/saddles.csv",
        "key,name,variants,material,system,ends,sizes,remark,source,grade\n",
    ),
    (
        "joints/parts.csv",
        "key,name,tasks,act,ends,sizes,stock,outlet,pieces,comes,less,wont,source,grade\n",
    ),
    ("joints/runs.csv", "part,run,bends,source,grade\n"),
];

const PRINT: [(&str, &str); 3] = [
    (
        "print/standards.csv",
        "name,variants,source,grade\nBook 1,pvc/*,notes,practice\nBook 2,pe/*,notes,practice\n",
    ),
    (
        "print/codes.csv",
        "name,variants,source,grade\nPVC,pvc/*,notes,practice\nPE,pe/*,notes,practice\n",
    ),
    (
        "print/words.csv",
        "word,thing,value,source,grade\nDR,class,ratio,notes,practice\n",
    ),
];

const THRUST: [(&str, &str); 7] = [
    (
        "thrust/soils.csv",
        "procedure,name,friction_deg,grip,cohesion_psf,adhesion,weight_pcf,trench,source,grade\n\
        iron,clay,0,0,450,0.50,90,iron-any,notes,memory\n\
        pvc,SM,30,0.60,0,0,110,pvc-any,book,standard\n",
    ),
    (
        "thrust/trenches.csv",
        "key,procedure,light,bedded,granular,compacted,source,grade\n\
        iron-any,iron,0.2,0.4,0.6,0.85,notes,memory\npvc-any,pvc,,0.6,0.85,1,notes,memory\n",
    ),
    (
        "thrust/words.csv",
        "word,iron,pvc,source,grade\nsand,clay,SM,notes,practice\nmuck,refer,refer,notes,practice\n",
    ),
    (
        "thrust/constants.csv",
        "key,value,unit,source,grade\nsafety,1.5,times,notes,memory\nwrapped,0.7,times,notes,memory\n\
        concrete,150,pcf,notes,memory\npvc,87,pcf,notes,memory\niron,440,pcf,notes,memory\n\
        steel,490,pcf,notes,memory\ncover,2,ft,notes,memory\n\
        reach,2,times,notes,memory\ncure,7,day,notes,memory\ncure-least,3,day,notes,memory\n\
        cure-fast,24,h,notes,memory\n",
    ),
    (
        "thrust/bearing-tables.csv",
        "table,name,factor,use,remark,source,grade\nlow,low table,1,default,of depth,book,standard\n",
    ),
    (
        "thrust/bearing.csv",
        "table,soil,words,depth_ft,psf,source,grade\nlow,sand,sand unknown,2,500,book,standard\n",
    ),
    ("thrust/blocks.csv", "key,text,source,grade\n"),
];

/// How joints are made up.
const ASSEMBLY: [(&str, &str); 10] = [
    (
        "assembly/flanges.csv",
        "nominal,drilling,od_in,circle_in,hole_in,bolts,bolt_in,source,grade,thick_in,length_in,length_source,length_grade\n\
        4,125/150,9,7.5,0.75,8,0.625,notes,practice,0.94,3,notes,practice\n\
        6,125/150,11,9.5,0.875,8,0.75,notes,practice,1,3.5,book,one-source\n\
        4,250/300,10,7.875,,8,0.75,notes,practice,,,,\n",
    ),
    (
        "assembly/mechanical.csv",
        "nominal,socket_in,socket_source,socket_grade,circle_in,bolts,bolt_in,length_in,bolt_source,bolt_grade,low_ftlb,high_ftlb,torque_source,torque_grade,minutes,minutes_source,minutes_grade\n\
        3,2.5,notes,practice,6.19,4,0.625,3,notes,practice,45,60,notes,practice,,,\n\
        4,2.5,notes,practice,7.5,4,0.75,3.5,notes,practice,75,90,notes,practice,498,notes,practice\n",
    ),
    (
        "assembly/cure.csv",
        "to_nominal,over_f,to_f,set_min,psi,cure_h,high_cure_h,wet_times,source,grade\n\
        3,60,100,30,180,2,12,1.5,notes,practice\n\
        3,40,60,120,180,4,24,1.5,notes,practice\n\
        8,60,100,60,180,6,24,1.5,notes,practice\n",
    ),
    (
        "assembly/sockets.csv",
        "schedule,nominal,depth_in,entrance_in,source,grade\n40,4,2,4.518,notes,practice\n40,6,3,,notes,practice\n",
    ),
    (
        "assembly/deflection.csv",
        "bell,material,to_nominal,minutes,source,grade\n\
        push-on,iron,12,300,notes,practice\npush-on,iron,60,180,notes,practice\n",
    ),
    (
        "assembly/torque.csv",
        "gasket,nominal,ftlb,source,grade\nrubber,4,32,notes,practice\n",
    ),
    (
        "assembly/quantities.csv",
        "what,nominal,joints,source,grade\ncement,4,30,notes,practice\ncement,6,10,notes,practice\n",
    ),
    (
        "assembly/sticks.csv",
        "family,feet,source,grade\npvc,20,notes,practice\n",
    ),
    (
        "assembly/steps.csv",
        "joint,material,step,text,source,grade\nmj,pvc,cut,Cut it.,notes,practice\n",
    ),
    (
        "assembly/constants.csv",
        "key,value,source,grade\ngasket-in,0.125,notes,practice\nwasher-in,0.18,notes,practice\n\
        washer-large-in,0.28,notes,practice\noiled,0.75,notes,practice\nshort-of-stop-in,0.5,notes,practice\n\
        primer-joints,2,notes,practice\nmud,2,notes,practice\nowner-iron,0.8,notes,practice\nowner-pvc,0.7,notes,practice\n",
    ),
];

/// Jobs at a trench.
const JOBS: [(&str, &str); 7] = [
    ("jobs/jobs.csv", "key,words,name,other,task,source,grade\n"),
    (
        "jobs/ways.csv",
        "job,key,name,when,build,remark,source,grade\n",
    ),
    (
        "jobs/lines.csv",
        "section,order,key,triggers,quantity,place,text,source,grade\n",
    ),
    (
        "jobs/holders.csv",
        "restraint,across,gland,brings,place,source,grade\n",
    ),
    ("jobs/weights.csv", "parts,size,lb,source,grade\n"),
    (
        "jobs/sticks.csv",
        "family,feet,lb_in3,bell,piece,place,source,grade\n",
    ),
    (
        "jobs/rules.csv",
        "key,value,unit,source,grade\ncut-back,12,in,notes,practice\nglue-cold,40,F,notes,practice\n\
        hand-lift,50,lb,notes,practice\nlift-band,25,%,notes,practice\nspacer-apart,6,ft,notes,practice\n\
        spacer-bell,1.5,ft,notes,practice\n",
    ),
];

/// The small folder.
pub(crate) fn folder() -> Files {
    [
        ("od/pvc.csv", OD),
        ("classes/pvc.csv", CLASSES),
        ("od/pe.csv", METRIC_OD),
        ("classes/pe.csv", METRIC_CLASSES),
        ("families.toml", FAMILIES),
        ("series.toml", SERIES),
        ("od-systems.toml", SYSTEMS),
        ("sources.toml", SOURCES),
        ("clues.toml", CLUES),
        ("clues/magnet.csv", MAGNET),
        ("settings.toml", SETTINGS),
        ("differences.csv", DIFFERENCES),
        (
            "sizes.csv",
            "nominal,weight,source,grade\n4,0.2,notes,practice\n6,0.25,notes,practice\n",
        ),
        (
            "size-exceptions.csv",
            "family,nominal,weight,source,grade\npvc,6,0.5,notes,practice\n",
        ),
        (
            "class-shares.csv",
            "family,class,share,source,grade\npvc,DR 18,0.45,notes,practice\n",
        ),
        (
            "derating.csv",
            "material,fahrenheit,factor,source,grade\npvc,73,1,notes,practice\npvc,140,0.22,notes,practice\n",
        ),
        ("README.md", "Not a source.\n"),
    ]
    .into_iter()
    .chain(JOINTS)
    .chain(PRINT)
    .chain(THRUST)
    .chain(ASSEMBLY)
    .chain(JOBS)
    .map(|(name, text)| (name.to_owned(), text.to_owned()))
    .chain(crate::site::tests::files())
    .collect()
}

/// Changes the one place on a line where `from` stands.
pub(crate) fn change(files: &mut Files, file: &str, line: usize, from: &str, to: &str) {
    let text = files.get_mut(file).expect(file);
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    let old = &lines[line - 1];
    assert_eq!(old.matches(from).count(), 1, "{from:?} in {old:?}");
    lines[line - 1] = old.replace(from, to);
    *text = lines.join("\n") + "\n";
}

/// The small folder with one change.
pub(crate) fn with(file: &str, line: usize, from: &str, to: &str) -> Files {
    let mut files = folder();
    change(&mut files, file, line, from, to);
    files
}

/// The mistakes in a folder.
pub(crate) fn mistakes(files: &Files) -> Vec<Diagnostic> {
    crate::read_files(files).err().unwrap_or_default()
}

/// Where a mistake is expected: line, column, what is underlined.
pub(crate) type At<'a> = (usize, usize, &'a str);

/// Changes one place and expects one mistake, in the same file.
pub(crate) fn one(file: &str, change: (usize, &str, &str), at: At<'_>, message: &str) {
    let files = with(file, change.0, change.1, change.2);
    only(&files, file, at, message);
}

/// Expects one mistake.
pub(crate) fn only(files: &Files, file: &str, at: At<'_>, message: &str) {
    let found = mistakes(files);
    let texts: Vec<String> = found.iter().map(ToString::to_string).collect();
    assert_eq!(found.len(), 1, "{}", texts.join("\n\n"));
    is(&found[0], file, at, message);
}

/// Expects this mistake.
pub(crate) fn is(found: &Diagnostic, file: &str, at: At<'_>, message: &str) {
    let Diagnostic { column, span, .. } = *found;
    let underlined: String = found
        .text
        .chars()
        .skip(column.saturating_sub(1))
        .take(span)
        .collect();
    assert_eq!(
        (found.file.as_str(), found.message.as_str()),
        (file, message),
        "{found}"
    );
    assert_eq!((found.line, column, underlined.as_str()), at, "{found}");
    assert!(!found.help.is_empty(), "{found}");
}

#[test]
fn the_small_folder_reads_clean() {
    let files = folder();
    assert_eq!(mistakes(&files), Vec::new());
    let sources = crate::read_files(&files).expect("clean");
    assert_eq!(sources.sources[0].key, "notes", "in the order of the file");
    let row = &sources.families[0].od[1];
    assert_eq!((row.line, row.od.value), (5, 17_526_000));
    assert_eq!(row.od.sources, [1, 0]);
    assert_eq!(sources.families[1].od[0].od.value, 16_000_000);
    assert_eq!(
        sources.families[0].classes[2]
            .psi
            .as_ref()
            .map(|psi| psi.value),
        Some(150)
    );
}
