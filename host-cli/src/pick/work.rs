//! One list: which way is taken on these pipes, and why the others are not.

use anyhow::{Result, anyhow, bail};
use springline_compiler::jobs::Seat;
use springline_compiler::notes::{JobNote, Notes, WayNote};
use springline_core::image::Image;

use super::args::PickArgs;
use super::build::Ground;
use super::built::{Built, Pipes, names};
use super::due::{Case, is_large, sixty_fourths};
use super::figures::cure;
use super::lift;
use super::line::Line;
use super::list::{Maker, place, takes_days};
use super::measures::measured;
use super::pipes::{self, Asked};
use super::plan::{Alternative, Other, cautions};
use super::site::Site;
use crate::fits::caution::Due;
use crate::fits::tie::end::End;

/// A way that can be done.
struct Offer<'a> {
    way: &'a WayNote,
    key: String,
    built: Built,
}

/// What one list is worked out from.
pub(super) struct Work<'a> {
    pub(super) image: &'a Image<'a>,
    pub(super) notes: &'a Notes,
    pub(super) site: &'a Site,
    pub(super) asked: &'a Asked,
    pub(super) args: &'a PickArgs,
}

impl Work<'_> {
    fn pipes(&self, job: &JobNote, texts: &[String]) -> Result<Pipes> {
        let read = |text: &String| pipes::end(self.image, self.notes, text, self.args);
        let a = read(&texts[0])?;
        let second = texts
            .get(1)
            .filter(|_| !matches!(job.other.as_deref(), Some("branch" | "carrier")));
        let b = read(second.unwrap_or(&texts[0]))?;
        let of = |what: &str| -> Result<Option<End>> {
            let other = (job.other.as_deref() == Some(what))
                .then(|| texts.get(1))
                .flatten();
            other.map(read).transpose()
        };
        let pieces = [
            self.piece(&a, &texts[0])?,
            self.piece(&b, second.unwrap_or(&texts[0]))?,
        ];
        Ok(Pipes {
            c: of("branch")?,
            k: of("carrier")?,
            a,
            b,
            pieces,
        })
    }

    /// What pieces are cut of that close a gap in a pipe.
    fn piece(&self, end: &End, text: &str) -> Result<End> {
        let stick = lift::stick(self.notes, end);
        let Some(family) = stick.and_then(|stick| stick.piece) else {
            return pipes::end(self.image, self.notes, text, self.args);
        };
        let family = self.image.packed_text(self.image.family(family).key);
        let text = format!("{family}:{}", end.known.nominal);
        pipes::end(self.image, self.notes, &text, self.args)
            .map_err(|error| anyhow!("no pipe is made to close a gap in this: {error}"))
    }

    /// The list of a job on these pipes, and the cautions that are due.
    pub(super) fn done(
        &self,
        job: &JobNote,
        texts: &[String],
        name: String,
    ) -> Result<(Alternative, Vec<Line>, Vec<Due>)> {
        let pipes = self.pipes(job, texts)?;
        let (mut offers, mut others) = self.offers(&pipes)?;
        // Whether ends move is a matter of what leads from one to another.
        let moves = matches!(job.other.as_deref(), Some("second pipe"));
        let full = |end: &End| {
            let full = end.in_full(self.site.unit);
            if moves {
                full
            } else {
                full.replace("; cut square", "")
                    .replace("; taken as fixed", "")
            }
        };
        let mut ends = vec![full(&pipes.a)];
        if texts.len() > 1 {
            let other = pipes.c.as_ref().or(pipes.k.as_ref()).unwrap_or(&pipes.b);
            ends.push(full(other));
        }
        let mut alternative = Alternative {
            name,
            ends,
            way: None,
            others: Vec::new(),
            refused: None,
        };
        if let Some(key) = &self.args.way {
            if !offers.iter().any(|offer| offer.key == *key) && !self.is_open() {
                let known: Vec<&str> = offers.iter().map(|offer| offer.key.as_str()).collect();
                let why = others.iter().find(|other| other.key == *key);
                bail!(
                    "no way \"{key}\" here{}\n  try one of: {}",
                    why.map_or(String::new(), |other| format!(": {}", other.why)),
                    known.join(", ")
                );
            }
            offers.sort_by_key(|offer| offer.key != *key);
        } else if self.site.back_in.is_some_and(|back| back.in_hours() < 48.0) {
            // Against the clock what is on a shelf goes before what is better and comes tomorrow.
            offers.sort_by_key(|offer| takes_days(place(offer.built.stock())));
        }
        let mut offers = offers.into_iter();
        let Some(offer) = offers.next() else {
            alternative.others = others;
            let due = cautions(self.image, self.notes, &[pipes.a], None, job, self.site);
            return Ok((alternative, Vec::new(), due));
        };
        alternative.way = Some(offer.key.clone());
        others.splice(
            0..0,
            offers.map(|offer| Other {
                key: offer.key,
                name: if offer.way.build.seats.contains(&Seat::Ways) {
                    names(self.image, &offer.built)
                } else {
                    offer.way.name.clone()
                },
                why: String::new(),
            }),
        );
        alternative.others = others;
        let maker = Maker {
            image: self.image,
            notes: self.notes,
            pipes: &pipes,
            built: &offer.built,
            site: self.site,
            way: offer.way,
            case: self.case(&pipes, &offer.built),
        };
        let lines = maker.list()?;
        let ends = [
            Some(pipes::end(self.image, self.notes, &texts[0], self.args)?),
            texts
                .get(1)
                .map(|text| pipes::end(self.image, self.notes, text, self.args))
                .transpose()?,
        ];
        let ends: Vec<End> = ends.into_iter().flatten().collect();
        let due = cautions(
            self.image,
            self.notes,
            &ends,
            Some(&offer.built),
            job,
            self.site,
        );
        Ok((alternative, lines, due))
    }

    fn is_open(&self) -> bool {
        self.asked.places.iter().any(|place| place.ends.len() > 1)
    }

    fn case<'b>(&'b self, pipes: &'b Pipes, built: &'b Built) -> Case<'b> {
        let rule = |key| lift::rule(self.notes, key);
        let stick = lift::stick(self.notes, &pipes.a).map(lift::span);
        let (mut spacers, mut carrier_joints) = (0, 0);
        if let (Some(carrier), Some(length)) = (&pipes.k, self.site.length) {
            let (short, _) = lift::stick(self.notes, carrier).map_or((20.0, 20.0), lift::span);
            let sticks = whole(length.in_feet() / short).max(1);
            carrier_joints = sticks - 1;
            // One each side of a bell, and between those no further apart than the rule.
            let between =
                (short - 2.0 * rule("spacer-bell")).max(0.0) / rule("spacer-apart").max(0.1);
            spacers = sticks * (2 + whole(between).saturating_sub(1));
        }
        Case {
            image: self.image,
            pipes,
            built,
            site: self.site,
            job: u16::try_from(self.asked.job).unwrap_or(u16::MAX),
            cold_f: rule("glue-cold"),
            stick_ft: stick.map(|(short, _)| short),
            spacers,
            carrier_joints,
        }
    }

    /// Every way of the job: what can be done, and why the rest cannot.
    fn offers<'b>(&'b self, pipes: &'b Pipes) -> Result<(Vec<Offer<'b>>, Vec<Other>)> {
        let job = u16::try_from(self.asked.job).unwrap_or(u16::MAX);
        let ground = Ground {
            image: self.image,
            pipes,
            outlet: self
                .site
                .outlet
                .as_deref()
                .filter(|_| !is_large(self.site))
                .and_then(sixty_fourths),
            large: self.site.outlet.clone().filter(|_| is_large(self.site)),
            dry: self.site.dry == Some(true),
        };
        let (mut offers, mut others) = (Vec::new(), Vec::new());
        for way in self
            .notes
            .jobs
            .ways
            .iter()
            .filter(|way| way.jobs.contains(&job))
        {
            let not = |why: String| Other {
                key: way.key.clone(),
                name: way.name.clone(),
                why,
            };
            match ground.lay(&way.build) {
                Err(why) => others.push(not(why)),
                Ok(all) => {
                    let many = all.len() > 1;
                    for (built, number) in all.into_iter().zip(1..) {
                        let case = self.case(pipes, &built);
                        if !way.when.is_empty() && case.met(&way.when).is_none() {
                            continue;
                        }
                        if let Some(why) = self.wont(pipes, &built)? {
                            others.push(not(why));
                            continue;
                        }
                        let key = if many {
                            format!("{}-{number}", way.key)
                        } else {
                            way.key.clone()
                        };
                        offers.push(Offer { way, key, built });
                    }
                }
            }
        }
        Ok((offers, others))
    }

    /// Why glue and fusion are not offered here.
    fn wont(&self, pipes: &Pipes, built: &Built) -> Result<Option<String>> {
        if !built.is_dry(self.image) {
            return Ok(None);
        }
        match self.site.dry {
            Some(false) => return Ok(Some(String::from("it cannot be got dry"))),
            None => {
                return Ok(Some(String::from(
                    "not before it is known that it can be got dry (--dry yes)",
                )));
            }
            Some(true) => {}
        }
        let glued = built
            .joints
            .iter()
            .any(|joint| self.image.joint_end(joint.end).cures());
        if !glued {
            return Ok(None);
        }
        let cold = lift::rule(self.notes, "glue-cold");
        if self.site.fahrenheit.is_some_and(|f| f < cold) {
            let cold = measured(cold, "F", self.site.unit).unwrap_or_default();
            return Ok(Some(format!(
                "colder than {cold}: it does not set in time to be of use"
            )));
        }
        let Some(back) = self.site.back_in else {
            return Ok(None);
        };
        Ok(match cure(self.image, pipes, built, self.site)? {
            Ok(cure) if cure.all <= back => None,
            Ok(cure) => Some(format!(
                "it has not cured when water must be back: {}",
                cure.text
            )),
            Err(why) => Some(why),
        })
    }
}

/// Up to the next whole number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a few sticks or spacers"
)]
fn whole(count: f64) -> u32 {
    (count - 1e-9).ceil().clamp(0.0, 10_000.0) as u32
}
