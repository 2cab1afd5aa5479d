//! What was said of the site, understood once.

use anyhow::{Result, anyhow};
use springline_compiler::jobs::Circumstance;
use springline_core::unit::{Distance, Duration};

use super::args::{PickArgs, WaterArg};
use crate::cli::{OwnerArg, UnitsArg, YesNo};
use crate::parse::{self, Unit};
use crate::share::Shared;
use crate::site::pipe::by_tape;

/// The site.
pub(super) struct Site {
    pub(super) dry: Option<bool>,
    pub(super) back_in: Option<Duration>,
    /// Temperature of the pipe, °F.
    pub(super) fahrenheit: Option<f64>,
    pub(super) valve: Option<Distance>,
    pub(super) damage: Option<Distance>,
    pub(super) length: Option<Distance>,
    pub(super) wires: Option<u16>,
    pub(super) valves: Option<u16>,
    pub(super) outlet: Option<String>,
    pub(super) water: Option<WaterArg>,
    pub(super) owner: OwnerArg,
    pub(super) dead_end: Option<Distance>,
    /// The shut valve as it was typed.
    pub(super) valve_typed: Option<String>,
    /// Cover: ground to the top of the pipe.
    pub(super) depth: Option<Distance>,
    /// The gap that a piece closes, what is left at each of its ends, and the parts in it.
    pub(super) opening: Option<Distance>,
    pub(super) gap: Option<Distance>,
    pub(super) lay: Option<Distance>,
    /// Length of the coupling in hand.
    pub(super) coupling: Option<Distance>,
    /// Length of line that runs empty into the hole.
    pub(super) drains: Option<Distance>,
    /// Air or joints are damp, so that glue takes longer.
    pub(super) damp: bool,
    pub(super) groundwater: bool,
    /// What other verbs are asked with.
    pub(super) shared: Shared,
    pub(super) units: UnitsArg,
    pub(super) unit: Unit,
}

impl Site {
    /// Understands the arguments.
    pub(super) fn of(args: &PickArgs) -> Result<Self> {
        let unit = Unit::from(args.units);
        let far = |option: &str, text: &Option<String>| -> Result<Option<Distance>> {
            let read = text.as_deref().map(|text| parse::distance(text, unit));
            read.transpose()
                .map_err(|error| anyhow!("{option}: {error}"))
        };
        let shared = &args.shared;
        let tape = |option: &str, text: Option<&str>| -> Result<Option<Distance>> {
            let text = text.map(str::to_owned);
            by_tape(text.as_ref(), unit).map_err(|error| anyhow!("{option}: {error}"))
        };
        let own = |option: &str, field: &str| -> Result<Option<Distance>> {
            far(option, &shared.get(field).map(str::to_owned))
        };
        let depth = own("--depth", "depth")?;
        if depth.is_some_and(|depth| depth <= Distance::ZERO) {
            return Err(anyhow!(
                "--depth: no cover, and nothing lies on the pipe\n  try: --depth 3ft, from grade to the top of the pipe"
            ));
        }
        let back_in = args.back_in.as_deref().map(parse::duration).transpose();
        let temp = args.temp.as_deref().map(parse::temperature).transpose();
        let temp = temp.map_err(|error| anyhow!("--temp: {error}"))?;
        if args.valves == Some(0) {
            return Err(anyhow!(
                "--valves: a manifold has a valve\n  try: --valves 4"
            ));
        }
        Ok(Self {
            dry: args.dry.map(|dry| dry == YesNo::Yes),
            back_in: back_in.map_err(|error| anyhow!("--back-in: {error}"))?,
            fahrenheit: temp.map(|temp| f64::from(temp) / 100.0),
            valve: far("--valve", &args.valve)?,
            damage: far("--damage", &args.damage)?,
            length: far("--length", &args.length)?,
            wires: args.wires,
            valves: args.valves,
            outlet: args.outlet.as_deref().map(crate::format::spelled),
            water: args.water,
            owner: args.owner,
            dead_end: own("--dead-end", "dead_end")?,
            valve_typed: args.valve.clone(),
            depth,
            opening: tape("--opening", shared.get("opening"))?,
            gap: tape("--gap", shared.get("gap"))?,
            lay: tape("--lay", args.lay.as_deref())?,
            coupling: tape("--coupling", shared.get("coupling"))?,
            drains: own("--drains", "drains")?,
            damp: shared.get("wet") != Some("no"),
            groundwater: args.groundwater,
            shared: shared.clone(),
            units: args.units,
            unit,
        })
    }

    /// What was said, in words.
    pub(super) fn told(&self, args: &PickArgs) -> Vec<String> {
        let mut told: Vec<String> = Vec::new();
        if let Some(damage) = &args.damage {
            told.push(format!("damage of {}", damage.trim()));
        }
        told.extend(self.dry.map(|dry| {
            let text = if dry {
                "can be got dry"
            } else {
                "cannot be got dry"
            };
            text.to_owned()
        }));
        if let Some(back) = self.back_in {
            told.push(format!("water back in {}", long(back)));
        }
        if let Some(temp) = &args.temp {
            told.push(format!("pipe at {}", temp.trim()));
        }
        if let Some(valve) = self.valve {
            told.push(format!("shut valve {} from the cut", far(valve, self.unit)));
        }
        if let Some(length) = self.length {
            told.push(format!("road sleeve of {}", far(length, self.unit)));
        }
        for (field, name) in [
            ("pressure", "highest pressure"),
            ("shutoff", "pump shutoff"),
            ("at_rest", "static"),
            ("below", "lies below pump or gauge by"),
            ("above", "lies above pump or gauge by"),
            ("failed_open", "regulator failed open"),
            ("working", "working"),
            ("surge", "surge"),
            ("test", "test"),
            ("depth", "cover"),
            ("soil", "soil"),
        ] {
            let typed = shared_text(&self.shared, field, name);
            told.extend(typed);
        }
        told.extend(self.wires.map(|wires| match wires {
            0 => String::from("no control wires cut"),
            1 => String::from("1 control wire cut"),
            wires => format!("{wires} control wires cut"),
        }));
        told.extend(self.water.map(|water| {
            let text = match water {
                WaterArg::Potable => "drinking water",
                WaterArg::Irrigation => "not drinking water",
            };
            text.to_owned()
        }));
        told
    }

    /// Whether something was said of the site; what follows from pipes and parts is not asked here.
    pub(super) fn said(&self, of: Circumstance, cold_f: f64) -> Option<bool> {
        Some(match of {
            Circumstance::Wet => self.dry == Some(false),
            Circumstance::DryUnknown => self.dry.is_none(),
            Circumstance::Cold => self.fahrenheit.is_some_and(|f| f < cold_f),
            Circumstance::TempUnknown => self.fahrenheit.is_none(),
            Circumstance::Clock => self.back_in.is_some(),
            Circumstance::ClockUnknown => self.back_in.is_none(),
            Circumstance::Valve => self.valve.is_some(),
            Circumstance::ValveUnknown => self.valve.is_none(),
            Circumstance::Wires => self.wires.is_some_and(|wires| wires > 0),
            Circumstance::WiresUnknown => self.wires.is_none(),
            Circumstance::Potable => self.water == Some(WaterArg::Potable),
            Circumstance::NonPotable => self.water == Some(WaterArg::Irrigation),
            Circumstance::WaterUnknown => self.water.is_none(),
            Circumstance::Damage => self.damage.is_some(),
            Circumstance::DamageUnknown => self.damage.is_none(),
            Circumstance::OutletUnknown => self.outlet.is_none(),
            Circumstance::ValvesUnknown => self.valves.is_none(),
            Circumstance::LengthUnknown => self.length.is_none(),
            Circumstance::OwnerUnknown => self.owner == OwnerArg::Unknown,
            _ => return None,
        })
    }
}

/// A thing that was told to another verb, in words.
fn shared_text(shared: &Shared, field: &str, name: &str) -> Option<String> {
    let typed = shared.get(field)?;
    Some(format!("{name} {}", typed.trim()))
}

/// A distance as people read it along a line: feet, or metres.
pub(super) fn far(distance: Distance, unit: Unit) -> String {
    let (value, name) = match unit {
        Unit::Inch => (distance.in_feet(), "ft"),
        Unit::Millimetre => (distance.in_metres(), "m"),
    };
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    format!("{text} {name}")
}

/// A time as people read it.
pub(super) fn long(time: Duration) -> String {
    let hours = time.in_hours();
    if hours >= 48.0 {
        format!("{:.1} days", hours / 24.0).replace(".0 ", " ")
    } else if hours >= 1.0 {
        format!("{hours:.1} h").replace(".0 ", " ")
    } else {
        format!("{:.0} min", time.in_minutes())
    }
}
