//! What is said of two flanges.

use anyhow::{Result, anyhow, bail};
use springline_compiler::assembly::{ConstantNote, FlangeNote, TorqueNote};
use springline_compiler::notes::{Cited, Notes};
use springline_core::assembly::{Drilling, FlangeSet, Grip, Nominal, flange};
use springline_core::image::Image;
use springline_core::unit::{Distance, Torque};

use super::words::{self, Sourced, distance};
use super::{BetweenArg, BodyArg, BoltArg, BoltsArgs, FaceArg, GasketArg};
use crate::parse::{self, Limits, Unit};

/// Bolts come in steps of a quarter of an inch, long ones of a half.
const STEP: Distance = Distance::inches(0.25);
const LONG_STEP: Distance = Distance::inches(0.5);
const LONG: Distance = Distance::inches(6.0);
/// Bolts above this take the thicker washer.
const LARGE_BOLT: Distance = Distance::inches(1.5);

/// Two flanges and their bolts.
pub(super) struct FlangeSaid {
    pub(super) size: Nominal,
    pub(super) drilling: Drilling,
    pub(super) flanges: [BodyArg; 2],
    pub(super) faces: [FaceArg; 2],
    pub(super) faces_told: bool,
    pub(super) between: BetweenArg,
    /// Why they do not go together.
    pub(super) refused: Option<String>,
    pub(super) set: FlangeSet,
    pub(super) od: Distance,
    /// Holes of a flange and the bolts that are bought: twice as many screws of a lug body.
    pub(super) count: u16,
    /// Length of bolts with one nut, and of studs with two.
    pub(super) lengths: Option<Lengths>,
    /// Why there is no length.
    pub(super) no_length: Option<&'static str>,
    pub(super) gasket_thick: Distance,
    pub(super) gasket_told: bool,
    pub(super) washers: u8,
    pub(super) washer_thick: Distance,
    pub(super) torque: Result<TorqueSaid, &'static str>,
    /// What to look at first.
    pub(super) steps: Vec<(String, Sourced)>,
    /// What is behind it, and its source.
    pub(super) why: Vec<Sourced>,
}

/// How long bolts are.
pub(super) struct Lengths {
    pub(super) bolt: Distance,
    pub(super) stud: Distance,
    /// The bolt is that of the tables; else both are computed from what was measured.
    pub(super) listed: bool,
}

/// A torque and where it holds.
pub(super) struct TorqueSaid {
    pub(super) torque: Torque,
    pub(super) condition: String,
    pub(super) cited: Cited,
}

impl FlangeSaid {
    pub(super) fn of(
        image: &Image<'_>,
        notes: &Notes,
        size: Nominal,
        args: &BoltsArgs,
    ) -> Result<Self> {
        let classes: Vec<Drilling> = args
            .class
            .iter()
            .map(|class| drilling(class))
            .collect::<Result<_>>()?;
        let [drilling, other] = pair(&classes, "--class")?;
        let set = flange(image, size, drilling).ok_or_else(|| none(image, size, drilling))?;
        let is =
            |note: &&FlangeNote| note.size == size.in_quarters() && note.drilling == drilling as u8;
        let note = notes.assembly.flanges.iter().find(is);
        let note = note.ok_or_else(|| none(image, size, drilling))?;
        let flanges = pair(&args.flanges, "--flanges")?;
        let faces = if args.faces.is_empty() {
            [FaceArg::Flat; 2]
        } else {
            pair(&args.faces, "--faces")?
        };
        let unit = args.units.into();
        let gasket_thick = args.gasket_thick.as_deref().map(|text| typed(text, unit));
        let gasket_told = gasket_thick.is_some();
        let constant = |key| constant(notes, key);
        let gasket = constant("gasket-in")?;
        let washer = constant(if set.bolt > LARGE_BOLT {
            "washer-large-in"
        } else {
            "washer-in"
        })?;
        let mut said = Self {
            size,
            drilling,
            flanges,
            faces,
            faces_told: !args.faces.is_empty(),
            between: args.between,
            refused: refusal(image, size, [drilling, other], flanges, faces),
            set,
            od: distance(note.od),
            count: u16::from(set.bolts)
                * if args.between == BetweenArg::Lug {
                    2
                } else {
                    1
                },
            lengths: None,
            no_length: None,
            gasket_thick: gasket_thick.transpose()?.unwrap_or(inches(gasket)),
            gasket_told,
            washers: args.washers,
            washer_thick: inches(washer),
            torque: torque(notes, size, drilling, flanges, args),
            steps: steps(notes),
            why: vec![Sourced::of(notes, "drilling", &note.cited)],
        };
        if !gasket_told {
            said.why
                .push(Sourced::of(notes, "gasket thickness", &gasket.cited));
        }
        if args.washers > 0 {
            said.why.push(Sourced::of(notes, "washers", &washer.cited));
        }
        said.measure(notes, note, args)?;
        if let Ok(torque) = &said.torque {
            said.why.push(Sourced::of(notes, "torque", &torque.cited));
        }
        Ok(said)
    }

    /// Works out how long bolts are, or why that cannot be told.
    fn measure(&mut self, notes: &Notes, note: &FlangeNote, args: &BoltsArgs) -> Result<()> {
        let unit = args.units.into();
        let body = args
            .body
            .as_deref()
            .map(|text| typed(text, unit))
            .transpose()?;
        let told: Vec<Distance> = args
            .thick
            .iter()
            .map(|text| typed(text, unit))
            .collect::<Result<_>>()?;
        let listed = note.thick_and_length.as_ref();
        let thick = match (&told[..], listed) {
            ([], Some((thick, _, cited))) if self.flanges.iter().all(|of| of.is_listed()) => {
                self.why
                    .push(Sourced::of(notes, "thickness and length", cited));
                Some([distance(*thick); 2])
            }
            ([], _) => None,
            _ => Some(pair(&told, "--thick")?),
        };
        self.no_length = match (self.between, body, thick) {
            (BetweenArg::Lug, _, _) => Some(
                "measure the body and its threads: a screw through flange and gasket, at least one diameter into the lug, and short of the screw from the other side",
            ),
            (BetweenArg::Wafer | BetweenArg::Filler, None, _) => {
                Some("measure the body (--body) and both flanges (--thick)")
            }
            (BetweenArg::Nothing, Some(_), _) => {
                bail!(
                    "--body is the thickness of what stands between the flanges\n  try: --between wafer, lug or filler with it"
                )
            }
            (_, _, None) if self.drilling == Drilling::Class250 => Some(
                "measure both flanges (--thick): of class 250/300 the tables have no thickness",
            ),
            (_, _, None) => Some(
                "measure both flanges (--thick), a loose ring with them: only iron's and steel's are listed",
            ),
            _ => None,
        };
        let (None, Some(flanges)) = (self.no_length, thick) else {
            return Ok(());
        };
        // On each side of a body that is not a seat of its own there is a gasket.
        let gaskets = match self.between {
            BetweenArg::Nothing => 1.0,
            BetweenArg::Filler => 2.0,
            _ if args.gasket == GasketArg::Unknown => 0.0,
            _ => 2.0,
        };
        let grip = Grip {
            flanges,
            between: self.gasket_thick * gaskets + body.unwrap_or(Distance::ZERO),
            washers: self.washer_thick * f64::from(self.washers),
        };
        let stock = |least: Distance| least.up_to(if least > LONG { LONG_STEP } else { STEP });
        let bolt = stock(grip.bolt(self.set.bolt));
        let plain = self
            .set
            .length
            .filter(|_| told.is_empty() && body.is_none());
        let as_listed = plain.filter(|length| {
            self.washers == 0 && !self.gasket_told || *length >= grip.bolt(self.set.bolt)
        });
        self.lengths = Some(Lengths {
            bolt: as_listed.unwrap_or(bolt),
            stud: stock(grip.stud(self.set.bolt)),
            listed: as_listed.is_some(),
        });
        Ok(())
    }
}

/// What to look at before two flanges are bolted.
fn steps(notes: &Notes) -> Vec<(String, Sourced)> {
    let all = notes.assembly.steps.iter();
    all.filter(|one| one.joint == "flange")
        .map(|one| (one.text.clone(), Sourced::of(notes, &one.step, &one.cited)))
        .collect()
}

/// The drilling of a class.
fn drilling(class: &str) -> Result<Drilling> {
    match class.trim().trim_end_matches('#') {
        "125" | "150" | "125/150" => Ok(Drilling::Class125),
        "250" | "300" | "250/300" => Ok(Drilling::Class250),
        _ => bail!(
            "no flange class \"{class}\" in the tables\n  try one of: 125, 150, 250, 300; PN and tables D and E are drilled otherwise: count, and measure circle and hole"
        ),
    }
}

/// One or two of an option: one stands for both.
fn pair<T: Copy>(all: &[T], option: &str) -> Result<[T; 2]> {
    match *all {
        [one] => Ok([one, one]),
        [one, other] => Ok([one, other]),
        _ => bail!("{option} takes one or two, a comma between them"),
    }
}

/// A length of a part.
fn typed(text: &str, unit: Unit) -> Result<Distance> {
    Ok(distance(parse::length(text, unit, Limits::DIAMETER)?))
}

fn constant<'n>(notes: &'n Notes, key: &str) -> Result<&'n ConstantNote> {
    let found = notes.assembly.constants.iter().find(|held| held.key == key);
    found.ok_or_else(|| anyhow!("the tables have no {key}\n  try: springline tables check"))
}

fn inches(constant: &ConstantNote) -> Distance {
    Distance::inches(f64::from(constant.value) / 1000.0)
}

/// That there is no such flange, and which there are.
fn none(image: &Image<'_>, size: Nominal, drilling: Drilling) -> anyhow::Error {
    let sizes: Vec<String> = image
        .flanges()
        .filter(|row| row.drilling_and_grades & 1 == drilling as u8)
        .map(|row| words::size(Nominal::quarters(row.size)))
        .collect();
    anyhow!(
        "no flange of {} in, class {}, in the tables\n  try one of: {}",
        words::size(size),
        drilling.key(),
        sizes.join(", ")
    )
}

/// Why two flanges must not be bolted together.
fn refusal(
    image: &Image<'_>,
    size: Nominal,
    drillings: [Drilling; 2],
    flanges: [BodyArg; 2],
    faces: [FaceArg; 2],
) -> Option<String> {
    let [one, other] = drillings;
    if one != other {
        let told = |drilling: Drilling| {
            let circle = flange(image, size, drilling).map(|set| {
                let circle = words::length(set.circle, Unit::Inch);
                format!("{} bolts on {circle}", set.bolts)
            });
            let circle = circle.unwrap_or_else(|| String::from("not in the tables"));
            format!("class {} has {circle}", drilling.key())
        };
        return Some(format!(
            "they do not go together: {}, {}. An adapter 125 by 250 or another flange; no hole is drilled out.",
            told(one),
            told(other)
        ));
    }
    let raised = faces.contains(&FaceArg::Raised);
    let weak = |(of, face): (BodyArg, FaceArg)| {
        face == FaceArg::Flat && matches!(of, BodyArg::Iron | BodyArg::Pvc)
    };
    let mut sides = flanges.into_iter().zip(faces);
    (raised && sides.any(weak)).then(|| {
        String::from(
            "a raised face bends a flat iron or PVC flange until it cracks (from memory). Have the raised face machined off and use a full-face gasket, or another flange.",
        )
    })
}

/// The torque, where everything that it hangs on is told.
fn torque(
    notes: &Notes,
    size: Nominal,
    drilling: Drilling,
    flanges: [BodyArg; 2],
    args: &BoltsArgs,
) -> Result<TorqueSaid, &'static str> {
    if flanges.contains(&BodyArg::Pvc) {
        return Err(
            "the PVC flange governs, and only its maker has a figure, a fraction of iron's: take that, in small steps. None here",
        );
    }
    if flanges.contains(&BodyArg::Hdpe) {
        return Err(
            "by who made the HDPE adapter: it creeps, and is tightened again after an hour. None here",
        );
    }
    if flanges.contains(&BodyArg::Bronze) {
        return Err("the bronze flange governs: its maker's figure. None here");
    }
    if args.bolts == BoltArg::Stainless {
        return Err(
            "stainless with anti-seize takes less than dry steel: the figure of who made bolts or gasket. None here",
        );
    }
    if args.faces.contains(&FaceArg::Raised) {
        return Err("the tables have figures of flat faces only: the gasket maker's figure");
    }
    if drilling == Drilling::Class250 {
        return Err("none for class 250/300 in the tables: the gasket maker's figure");
    }
    if matches!(args.between, BetweenArg::Lug | BetweenArg::Wafer) {
        return Err("by the valve's maker: its seat is the gasket of most. None here");
    }
    let (gasket, words) = match args.gasket {
        GasketArg::Unknown => {
            return Err("it hangs on the gasket: say --gasket rubber or sheet. Unknown, no figure");
        }
        GasketArg::Rubber => ("rubber", "full-face rubber below 70 Shore A"),
        GasketArg::Sheet => ("sheet", "compressed sheet"),
    };
    let is = |note: &&TorqueNote| note.gasket == gasket && note.size == size.in_quarters();
    let note = notes.assembly.torques.iter().find(is);
    let note =
        note.ok_or("none for this gasket and size in the tables: the gasket maker's figure")?;
    let dry = Torque::foot_pounds(f64::from(note.foot_pounds));
    let oiled = constant(notes, "oiled").ok();
    let (torque, bolts) = match (args.bolts, oiled) {
        (BoltArg::Oiled, Some(oiled)) => {
            let share = f64::from(oiled.value) / 1000.0;
            (
                dry * share,
                format!("oiled steel bolts, {share:.2} of the dry figure (from memory)"),
            )
        }
        _ => (
            dry,
            String::from("dry steel bolts of grade 5 or better; oiled takes less (--bolts oiled)"),
        ),
    };
    Ok(TorqueSaid {
        torque,
        condition: format!(
            "{words}, flat faces, {bolts}. No pipe standard has a figure: what flange or gasket maker says comes first"
        ),
        cited: note.cited.clone(),
    })
}
