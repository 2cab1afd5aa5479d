//! Numbers of a joint: what holds a fitting, bolts, depths, turns, times.

use springline_core::assembly::star;
use springline_core::image::{Grade, Set};
use springline_core::joint::{Act, Doing};
use springline_core::numbers::{About, Figures, Fixture, NoNumbers, at};
use springline_core::unit::{Angle, Distance, Duration, Force, Pressure, Torque};

use super::others::titled;
use super::pager::Pager;
use super::parts::due;
use super::pen::Pen;
use crate::app::App;
use crate::app::figures;
use crate::app::open::{Open, Pipes};
use crate::app::pipe::Pipe;
use crate::app::text::{Line, add, number};

/// Titles by code.
const TITLES: [&str; 12] = [
    "THRUST 90",
    "THRUST 45",
    "THRUST 22-1/2",
    "THRUST 11-1/4",
    "THRUST TEE",
    "THRUST DEAD END",
    "FLANGE 125/150",
    "FLANGE 250/300",
    "MJ BOLTS",
    "GOES IN",
    "TURNS",
    "GLUE",
];

/// Numbers of a joint on every pipe that is left.
#[inline(never)]
pub(super) fn numbers(app: &App<'_>, pipe: &Pipe, about: About, page: u8, pen: &mut Pen<'_>) -> u8 {
    let image = &app.image;
    let Open::Pipes(pipes) = Open::of(image, pipe) else {
        return 1;
    };
    let mut pager = Pager::new(pen, page);
    pager.item("");
    match pipes.numbers(image, about, &app.settings.told) {
        None => pager.text("It hangs on which pipe it is: not known yet."),
        Some(Err(why)) => pager.text(no_numbers(why)),
        Some(Ok(figures)) => {
            let mut tell = Tell {
                app,
                figures: &figures,
                pager: &mut pager,
            };
            match about {
                About::Hold(fixture) => tell.held(fixture, &pipes),
                About::Flange(_) | About::Mechanical => tell.bolted(),
                About::Depth => tell.depths(),
                About::Turn => tell.turns(),
                About::Glue => tell.glue(),
            }
        }
    }
    if about == About::Depth {
        pager.item("- ");
        pager.text("a bell: no standard has it. Measure this one, lip to stop.");
    }
    let _ = pager.page_end();
    let bolts = Doing::new(Act::Bolt, Set(0), []);
    due(app, pipes.rows(), bolts, &mut pager);
    let count = pager.finish();
    let title = TITLES.get(usize::from(about.code())).unwrap_or(&"");
    titled(pen, title, page, count);
    count
}

/// Why there are none, and what to do.
const fn no_numbers(why: NoNumbers) -> &'static str {
    match why {
        NoNumbers::Pressure => {
            "None without the highest pressure here: shutoff, surge or test. SET: tell it."
        }
        NoNumbers::Cover => "None without the cover, grade to top of pipe. SET: tell it.",
        NoNumbers::Temperature => "None without the temperature of the pipe. SET: tell it.",
        NoNumbers::Soil => "ASK: such soil holds nothing, no length, no block. An engineer.",
        NoNumbers::Drain => "ASK: no pipe for water under pressure.",
        NoNumbers::Fused => {
            "FUSED end to end it holds itself. A joint that is not fused carries all of the thrust: restrain it."
        }
        NoNumbers::Material => "ASK: no procedure for such pipe.",
        NoNumbers::Size => "None of this size in the tables: ask.",
        NoNumbers::NotGlued => "It is not glued.",
        NoNumbers::TooCold => "No times so cold: not today, or a gasketed joint.",
        NoNumbers::TooHot => "No times so hot: shade it, cool the pipe.",
        NoNumbers::TooMuchPressure => "No times at so much pressure: the cement maker's.",
        _ => "ASK: what was told gives no length.",
    }
}

/// Tells a page of figures.
struct Tell<'t, 'p, 'f> {
    app: &'t App<'t>,
    figures: &'t Figures,
    pager: &'t mut Pager<'p, 'f>,
}

impl Tell<'_, '_, '_> {
    /// A figure; nothing where there is none, which is seen before.
    fn get(&self, place: usize) -> f64 {
        self.figures.get(place).unwrap_or(0.0)
    }

    /// Words and a figure.
    #[inline(never)]
    fn say(&mut self, words: &str, figure: &dyn Fn(&mut Line)) {
        let mut line = Line::new();
        add(&mut line, words);
        figure(&mut line);
        self.pager.text(&line);
    }

    /// A whole number.
    fn count(&mut self, words: &str, value: f64, then: &str) {
        self.say(words, &|line| {
            number(line, figures::nearest(value));
            add(line, then);
        });
    }

    /// Behind a figure: that it is recalled or common practice.
    #[inline(never)]
    fn mark(&mut self, place: usize) {
        let grade = figures::nearest(self.get(place));
        if grade == Grade::Memory as u32 {
            self.pager.text("(from memory)");
        } else if grade == Grade::Practice as u32 {
            self.pager.text("(common practice)");
        }
    }

    /// Thrust, the trench while it is open, and each side after backfill.
    #[inline(never)]
    fn held(&mut self, fixture: Fixture, pipes: &Pipes) {
        let (told, unit) = (&self.app.settings.told, self.app.settings.unit);
        let thrust = Force::lbf(self.get(at::THRUST));
        self.say("", &|line| figures::force(line, thrust, unit));
        let pressure = told.pressure().unwrap_or_default();
        self.say("at ", &|line| figures::pressure(line, pressure, unit));
        if told.open {
            self.pager.heading("OPEN: NO LENGTH HOLDS");
            self.pager.item("");
            self.pager
                .text("till filled: hold all joints, cured block, or");
            let until = Pressure::psi(self.get(at::UNTIL));
            let mut line = Line::new();
            add(&mut line, "stay below ");
            self.pager.text(if figures::below(&mut line, until, unit) {
                &line
            } else {
                "no pressure at all"
            });
        }
        self.pager.heading("AFTER BACKFILL hold");
        self.pager.item("- ");
        self.pager.text(match fixture {
            Fixture::Tee => "branch:",
            Fixture::DeadEnd => "back along it:",
            _ => "each side:",
        });
        self.bells();
        if fixture == Fixture::Tee {
            self.pager.item("- ");
            self.pager.text("run: both joints of the tee");
        }
        let image = &self.app.image;
        let lower = |psi: u16| told.psi.is_some_and(|told| psi > 0 && psi < told);
        let rated = |row: &u16| {
            image
                .classes(&image.row(*row))
                .any(|class| lower(class.psi))
        };
        if pipes.rows().iter().any(rated) {
            self.pager.item("! ");
            self.pager
                .text("more than a class is rated: read the print");
        }
        self.taken();
    }

    /// The joints of one side, from the fitting outwards.
    #[inline(never)]
    fn bells(&mut self) {
        let unit = self.app.settings.unit;
        let length = Distance::inches(self.get(at::LENGTH));
        self.say("", &|line| {
            figures::length(line, length, unit);
            add(line, ",");
        });
        self.pager.text("its joint,");
        let bells = self.figures.get(at::BELLS);
        let (Some(stick), Some(bells)) = (self.app.settings.told.stick(), bells) else {
            return self.pager.text("each bell and coupling within");
        };
        let last = figures::nearest(bells);
        let shown = if last > 4 { 2 } else { last };
        if last == 0 {
            return self.pager.text("any bell that is nearer");
        }
        self.pager
            .text(if last == 1 { "bell at" } else { "bells at" });
        for bell in 1..=shown {
            let at = stick * f64::from(bell);
            self.say("", &|line| {
                figures::place(line, at, unit);
                add(line, ",");
            });
        }
        if last > shown {
            let at = stick * bells;
            self.say("every stick to ", &|line| {
                figures::place(line, at, unit);
                add(line, ",");
            });
        }
        self.pager.text("any that is nearer");
    }

    /// What was taken for granted.
    #[inline(never)]
    fn taken(&mut self) {
        let (image, told) = (&self.app.image, &self.app.settings.told);
        self.pager.item("- ");
        self.pager.text(if told.soil.is_some() {
            "soil:"
        } else {
            "soil not known: worst row,"
        });
        let row = figures::nearest(self.get(at::SOIL));
        if let Ok(row) = u8::try_from(row) {
            self.pager.text(image.soil_name(row));
            if image.soil(row).grade == Grade::Memory as u8 {
                self.pager.text("(from memory)");
            }
        }
        self.pager.item("- ");
        let safety = image.thrust_constants().safety;
        self.say("factor ", &|line| figures::hundredths(line, safety));
        self.pager
            .text("(from memory) ; bare pipe, no valve or end near,");
        self.pager.text(if told.wet {
            "below groundwater"
        } else {
            "above groundwater"
        });
    }

    /// Bolts, wrench, torque and order.
    #[inline(never)]
    fn bolted(&mut self) {
        let unit = self.app.settings.unit;
        let inches =
            |value: f64| move |line: &mut Line| figures::inches(line, Distance::inches(value));
        let bolts = self.get(at::BOLTS);
        self.count("", bolts, " bolts");
        let bolt = self.get(at::BOLT);
        self.say("", &inches(bolt));
        let torque = self.figures.get(at::TORQUE[0]);
        let length = self.figures.get(at::BOLT_LENGTH);
        if let Some(length) = length {
            self.say("x ", &inches(length));
        }
        self.mark(at::BOLT_GRADE);
        if length.is_none() {
            self.pager.text("; length: measure");
        } else if torque.is_none() {
            self.pager.text("; iron on iron, else measure");
        }
        self.pager.item("- ");
        let wrench = self.get(at::WRENCH);
        self.say("wrench ", &inches(wrench));
        self.pager.text("if heavy hex (from memory)");
        self.pager.item("- ");
        if let Some(low) = torque {
            let both = [low, self.get(at::TORQUE[1])].map(Torque::foot_pounds);
            self.say("torque ", &|line| figures::torques(line, both, unit));
            self.mark(at::TORQUE_GRADE);
            self.pager
                .text("; clean low-alloy T-bolts; a restraint has its own");
        } else {
            self.pager.text("torque: by who made gasket and flange");
        }
        self.pager.item("- ");
        let passes = self.get(at::PASSES);
        self.count("", passes, " times round, the last full, in this order:");
        for bolt in star(u8::try_from(figures::nearest(bolts)).unwrap_or(0)) {
            self.count("", f64::from(bolt), "");
        }
    }

    /// How deep it goes in.
    #[inline(never)]
    fn depths(&mut self) {
        let unit = self.app.settings.unit;
        for (words, place, then) in [
            ("glued socket ", at::SOLVENT, ": to its end; mark it"),
            ("MJ socket ", at::MJ, ": measure, mark the pipe there"),
        ] {
            if let Some(depth) = self.figures.get(place) {
                self.pager.item("- ");
                self.say(words, &|line| {
                    figures::depth(line, Distance::inches(depth), unit);
                });
                self.mark(place + 1);
                self.pager.text(then);
            }
        }
    }

    /// How far it may be turned, and where that leads a stick.
    #[inline(never)]
    fn turns(&mut self) {
        let unit = self.app.settings.unit;
        let mut any = false;
        for (joint, words) in ["push-on ", "PVC bell ", "MJ "].into_iter().enumerate() {
            let place = joint * 3;
            let Some(angle) = self.figures.get(place) else {
                continue;
            };
            any = true;
            self.pager.item("- ");
            self.say(words, &|line| figures::angle(line, Angle::degrees(angle)));
            self.mark(place + 2);
            if let (Some(aside), Some(stick)) =
                (self.figures.get(place + 1), self.app.settings.told.stick())
            {
                self.say(": ", &|line| {
                    // To the quarter, as a desk says it.
                    let quarters = f64::from(figures::nearest(aside * 4.0));
                    figures::depth(line, Distance::inches(quarters / 4.0), unit);
                });
                self.say("on ", &|line| figures::place(line, stick, unit));
            }
        }
        self.pager.item("");
        self.pager.text(if any {
            "Not restrained, MJ with a plain gland. Its maker's figure comes first."
        } else {
            "No figure: not turned, or by its maker."
        });
    }

    /// How long glue takes.
    #[inline(never)]
    fn glue(&mut self) {
        let (told, unit) = (&self.app.settings.told, self.app.settings.unit);
        if let (Some(warm), Some(pressure)) = (told.temperature(), told.pressure()) {
            self.say("at ", &|line| figures::temperature(line, warm, unit));
            self.say("and ", &|line| figures::pressure(line, pressure, unit));
        }
        for (words, place) in [("leave it ", at::SET), ("no pressure for ", at::CURE)] {
            let time = Duration::minutes(self.get(place));
            self.pager.item("- ");
            self.say(words, &|line| figures::lasts(line, time));
        }
        self.mark(at::CURE_GRADE);
        self.pager.item("");
        self.pager.text("What the can says comes first.");
    }
}
