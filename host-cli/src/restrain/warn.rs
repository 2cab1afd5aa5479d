//! What a user is to look at before the lengths.

use springline_core::image::Image;
use springline_core::thrust::{Fitting, Governs, Side, StopKind};
use springline_core::unit::{Distance, Pressure};

use super::answer::{Answer, Held, No};
use super::args::RestrainArgs;
use super::legs::LegSaid;
use super::work::practice;
use crate::rating::{self, Rating};

impl Answer {
    /// A pressure above the class as heat leaves it, or a class that nobody told. What stands on the line for hours must be
    /// within the class: whether it is not is given back, with what would be enough. What comes once in a while, a surge and a
    /// regulator that fails, may be above it by some standards, and is told.
    pub(super) fn hold_to_class(
        &mut self,
        image: &Image<'_>,
        (governs, pressure): (Governs, Pressure),
    ) -> Option<No> {
        let left = self.left;
        let rated = rating::ratings(image, &self.known);
        let holds = |one: &Rating| pressure <= one.class * left;
        let told = |all: &[&Rating]| {
            let words = all.iter().map(|one| {
                let pressure = self.show.rated(one.class * left);
                format!("{} ({pressure})", one.label)
            });
            words.collect::<Vec<_>>().join(", ")
        };
        let shown = self.show.pressure(pressure);
        let warm = match self.temperature {
            Some(hundredths) if left < 1.0 => format!(" at {} F", f64::from(hundredths) / 100.0),
            _ => String::new(),
        };
        let stands = !matches!(governs, Governs::Surge | Governs::FailedOpen);
        if self.known.class.is_some() {
            let Some(own) = rated.first() else {
                self.warnings.push(String::from(
                    "CLASS WITHOUT A PRESSURE in the tables: nothing is held against it. Ask its maker or the owner.",
                ));
                return None;
            };
            let mut no = None;
            if !holds(own) {
                // Of the other classes, as they are printed today.
                let all = rating::of_row(image, &self.known);
                let above: Vec<_> = all.iter().filter(|one| holds(one)).collect();
                let enough = if above.is_empty() {
                    String::from("no class of this size")
                } else {
                    told(&above)
                };
                let most = self.show.rated(own.class * left);
                if stands {
                    let because = format!(
                        "ABOVE THE CLASS: {shown} on {}, rated {most}{warm}. No joint that is held helps a pipe that is not rated for it.",
                        own.name()
                    );
                    let instead = format!(
                        "Enough is: {enough}. Read the print again (--class), or bring the pressure down."
                    );
                    no = Some(practice(&because, &instead));
                } else {
                    self.warnings.push(format!(
                        "ABOVE THE CLASS: {shown} on {}, rated {most}{warm}. Enough is: {enough}.",
                        own.name()
                    ));
                }
            }
            self.rated = rated.into_iter().next();
            return no;
        }
        let below: Vec<_> = rated.iter().filter(|one| !holds(one)).collect();
        if stands && !rated.is_empty() && below.len() == rated.len() {
            let because = format!(
                "ABOVE EVERY CLASS: {shown}{warm}, and of this size the tables have {}.",
                told(&below)
            );
            let instead = "No joint that is held helps a pipe that is not rated for it: bring the pressure down, or ask its maker.";
            return Some(practice(&because, instead));
        }
        if !below.is_empty() {
            self.warnings.push(format!(
                "CLASS NOT TOLD: {shown} is above the rating{warm} of {}. Read the print (--class).",
                told(&below)
            ));
        }
        None
    }

    /// What is to be known of this plan beside its lengths.
    pub(super) fn notes_on(&mut self, fitting: &Fitting, args: &RestrainArgs, held: &Held) {
        if let Fitting::Tee { run_held, .. } = fitting {
            if *run_held > Distance::ZERO {
                self.warnings.push(format!(
                    "{} of run is counted on: only while BOTH first joints on the run are restrained.",
                    self.show.place(*run_held)
                ));
            }
            if let Some(needed) = held.plan.run_needed {
                self.warnings.push(format!(
                    "THE BRANCH IS TOO SHORT to hold itself: after backfill the run must be one piece over {} (first joints on both sides restrained, --run-restrained), or a block behind the tee.",
                    self.show.length(needed)
                ));
            }
        }
        let short = held.legs.iter().any(|leg| {
            leg.leg
                .met
                .is_some_and(|stop| stop.kind == StopKind::DeadEnd && stop.at < leg.leg.own)
        });
        if short
            && held.plan.run_needed.is_none()
            && matches!(
                fitting,
                Fitting::Wye { .. }
                    | Fitting::EvenWye { .. }
                    | Fitting::DeadEnd
                    | Fitting::Reducer { .. }
            )
        {
            self.warnings.push(String::from(
                "THE PIPE ENDS TOO SOON to hold this: tie both ends together, or a block.",
            ));
        }
        for (stop, side) in held
            .stops
            .iter()
            .zip([Side::First, Side::Second, Side::Branch])
        {
            let met = |one: &LegSaid| one.leg.side == side && one.leg.met.is_some();
            if let Some(stop) = stop
                && !held.legs.iter().any(met)
            {
                self.warnings.push(format!(
                    "The valve or dead end at {} lies beyond the reach of this fitting: it is a thrust point by itself. Ask for it, too.",
                    self.show.place(stop.at)
                ));
            }
        }
        if args.water {
            self.warnings.push(String::from(
                "BELOW GROUNDWATER: soil and pipe are reckoned at their weight in water.",
            ));
        }
    }
}
