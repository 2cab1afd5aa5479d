//! How long the glue of a job takes, against the time there is.

use anyhow::Result;
use springline_core::assembly::Nominal;
use springline_core::image::Image;
use springline_core::unit::{Duration, Pressure, Temperature};

use crate::assemble::brief::{degrees, lasts, wait};
use crate::pick::built::{Built, Pipes};
use crate::pick::site::Site;
use crate::restrain::args::RestrainArgs;
use crate::restrain::brief::highest;
use crate::share::{PRESSURES, SITE, typed};
use crate::show;

/// How long it takes.
pub(in crate::pick) struct Cure {
    /// Set and cure.
    pub(in crate::pick) all: Duration,
    /// In words, with what it hangs on.
    pub(in crate::pick) text: String,
}

/// The highest pressure that was told, if any was.
fn pressure(site: &Site) -> Result<Option<Pressure>> {
    if !site.shared.any(&PRESSURES) {
        return Ok(None);
    }
    let of = |field: &&str| !["depth", "stick"].contains(field);
    let fields: Vec<&str> = SITE.into_iter().filter(of).collect();
    // What is asked of is the pressure alone: pipe and cover are of no account for it.
    let mut asked = ["c900", "8", "dead-end", "--depth=3ft"]
        .map(String::from)
        .to_vec();
    let pressures = ["below", "above", "surge"];
    let taken = fields
        .into_iter()
        .filter(|field| PRESSURES.contains(field) || pressures.contains(field));
    let taken: Vec<&str> = taken.collect();
    asked.extend(site.shared.words(&taken));
    highest(&typed::<RestrainArgs>(&asked)?).map(Some)
}

/// How long the slowest of its glued joints takes; why that is not known.
pub(in crate::pick) fn cure(
    image: &Image<'_>,
    pipes: &Pipes,
    built: &Built,
    site: &Site,
) -> Result<Result<Cure, String>> {
    let Some(fahrenheit) = site.fahrenheit else {
        return Ok(Err(String::from(
            "how long it cures hangs on how cold it is, and water must be back: say --temp, or take what needs no cure",
        )));
    };
    let at = Temperature::fahrenheit(fahrenheit);
    let told = pressure(site)?;
    // Where nobody told, what the longer column is for.
    let asked = told.unwrap_or(Pressure::psi(1000.0));
    let wet = site.damp;
    let mut slowest: Option<Cure> = None;
    for joint in &built.joints {
        if !image.joint_end(joint.end).cures() {
            continue;
        }
        let Some(end) = joint.on.and_then(|on| pipes.at(on)) else {
            continue;
        };
        let nominal = Nominal::of_measure(image.measure(end.known.pipe.row.size));
        let Some(nominal) = nominal else {
            return Ok(Err(String::from("no times in the tables for this size")));
        };
        let found = match wait(image, nominal, at, asked, wet, site.unit) {
            Ok(found) => found,
            Err(why) => return Ok(Err(why)),
        };
        let pressed = told.map_or_else(
            || String::from("pressure not told, so the longer figure (--highest)"),
            |told| format!("for {}", show::pressure(told, site.unit)),
        );
        let damp = if wet {
            "damp air"
        } else {
            "dry air (--wet no)"
        };
        let cure = Cure {
            all: found.set + found.cure,
            text: format!(
                "not moved for {}, then {} to cure: {}, {pressed}, {damp}. Cements differ fourfold and this is the longer table; the can rules",
                lasts(found.set),
                lasts(found.cure),
                degrees(at, site.unit),
            ),
        };
        if slowest.as_ref().is_none_or(|held| held.all < cure.all) {
            slowest = Some(cure);
        }
    }
    Ok(slowest.ok_or_else(|| String::from("nothing of it is glued")))
}
