//! Which pipes are meant: families and sizes as typed, or what readings leave open.

use anyhow::{Result, anyhow, bail};
use springline_compiler::notes::Notes;
use springline_core::image::Image;

use super::args::PickArgs;
use crate::cli::{ReadArgs, TieArgs, UnitsArg, YesNo};
use crate::fits::tie::end::End;
use crate::read::left::left;

/// A pipe below this share is not loaded for.
const COUNTS: f64 = 0.02;
/// So many pipes are kept apart at most: a truck holds no more.
const MOST: usize = 4;
/// Words that stand between pipes and mean nothing more.
const BETWEEN: [&str; 6] = ["to", "and", "from", "branch", "carrier", "in"];

/// A place in the job, and the pipes that it may be.
pub(super) struct Place {
    /// What was typed, for each pipe that it may be, as `tie-in` takes it.
    pub(super) ends: Vec<String>,
}

/// The job and its pipes.
pub(super) struct Asked {
    /// The job, an index.
    pub(super) job: usize,
    /// The first pipe, then a second, a branch or a carrier.
    pub(super) places: Vec<Place>,
    /// What readings say of it, where it was read.
    pub(super) read: Option<String>,
    /// The check that would tell them apart.
    pub(super) check: Option<String>,
}

/// Reads the words.
pub(super) fn asked(image: &Image<'_>, notes: &Notes, args: &PickArgs) -> Result<Asked> {
    let (job, used) = job(notes, &args.words)?;
    let families: Vec<&str> = image.families().map(|f| image.packed_text(f.key)).collect();
    let mut places: Vec<Place> = Vec::new();
    // A pipe in quotes may have its "or" within them.
    let words: Vec<String> = args.words[used..]
        .iter()
        .flat_map(|word| {
            let mut parts = word.split(" or ");
            let first = parts.next().map(str::to_owned);
            let rest = parts.flat_map(|part| [String::from("or"), part.to_owned()]);
            first.into_iter().chain(rest)
        })
        .collect();
    let mut words = words.iter();
    let mut or = false;
    while let Some(word) = words.next() {
        let plain = word.to_ascii_lowercase();
        if plain == "or" {
            or = true;
            continue;
        }
        if BETWEEN.contains(&plain.as_str()) {
            continue;
        }
        let end = if word.contains(':') {
            word.clone()
        } else if families.contains(&plain.as_str()) {
            let Some(size) = words.next() else {
                bail!("{word}, and what size?\n  try: {word} 8");
            };
            format!("{plain}:{size}")
        } else {
            bail!(
                "\"{word}\" is neither a pipe nor a word between pipes\n  try: a family and its size, as c900 8 or c900:8:\"DR 18\"; or; {}\n  families: {}",
                BETWEEN.join(", "),
                families.join(", ")
            );
        };
        match places.last_mut() {
            Some(place) if or => place.ends.push(end),
            _ => places.push(Place { ends: vec![end] }),
        }
        or = false;
    }
    let mut read = None;
    let mut check = None;
    let readings = !(args.dia.is_empty() && args.around.is_empty() && args.dia_tape.is_empty());
    if readings {
        let found = from_readings(image, args)?;
        places.insert(0, Place { ends: found.ends });
        (read, check) = (Some(found.told), found.check);
    }
    let Some(first) = places.first_mut() else {
        bail!(
            "{}, and of which pipe?\n  try: pick {} c900 8, with --class if it is known; or a reading of it: --dia 9.05in",
            notes.jobs.jobs[job].name,
            notes.jobs.jobs[job].words
        );
    };
    if let (Some(class), false) = (&args.class, readings) {
        for end in &mut first.ends {
            end.extend([":", class.as_str()]);
        }
    }
    let other = notes.jobs.jobs[job].other.as_deref();
    let needed = match notes.jobs.jobs[job].key.as_str() {
        "fitting" => 1,
        _ => 1 + usize::from(other.is_some()),
    };
    if places.len() < needed {
        let what = other.unwrap_or("pipe");
        bail!(
            "{}: say the {what}, too\n  try: pick {} {} {what} c900:6, with a family of its own and its size",
            notes.jobs.jobs[job].name,
            notes.jobs.jobs[job].words,
            places[0].ends[0]
        );
    }
    if places.len() > 2 {
        bail!(
            "three pipes and more\n  try: the pipe, and one more: {}; \"or\" between what is not told apart yet",
            other.unwrap_or("the other end")
        );
    }
    Ok(Asked {
        job,
        places,
        read,
        check,
    })
}

/// The job that the first words name, and how many words that took; the longest name wins.
fn job(notes: &Notes, words: &[String]) -> Result<(usize, usize)> {
    let typed: Vec<String> = words.iter().map(|word| word.to_ascii_lowercase()).collect();
    let mut best: Option<(usize, usize)> = None;
    for (at, job) in notes.jobs.jobs.iter().enumerate() {
        let name: Vec<&str> = job.words.split(' ').collect();
        let same = name.len() <= typed.len() && name.iter().zip(&typed).all(|(a, b)| a == b);
        if same && best.is_none_or(|(_, used)| used < name.len()) {
            best = Some((at, name.len()));
        }
    }
    best.ok_or_else(|| {
        let all: Vec<&str> = notes
            .jobs
            .jobs
            .iter()
            .map(|job| job.words.as_str())
            .collect();
        anyhow!(
            "no job \"{}\"\n  try one of: {}",
            words.first().map_or("", String::as_str),
            all.join(", ")
        )
    })
}

/// One end, as `tie-in` reads it.
pub(super) fn end(image: &Image<'_>, notes: &Notes, text: &str, args: &PickArgs) -> Result<End> {
    let asked = TieArgs {
        from: String::new(),
        to: String::new(),
        offset: None,
        angle: None,
        back_in: None,
        wet: false,
        dry: false,
        owner: args.owner,
        why: false,
        json: false,
        units: args.units,
    };
    End::parse(image, notes, text, &asked)
}

struct Readings {
    ends: Vec<String>,
    told: String,
    check: Option<String>,
}

/// What readings leave open.
fn from_readings(image: &Image<'_>, args: &PickArgs) -> Result<Readings> {
    let asked = ReadArgs {
        dia: args.dia.clone(),
        along: Vec::new(),
        dia_tape: args.dia_tape.clone(),
        around: args.around.clone(),
        string: Vec::new(),
        chord: Vec::new(),
        rise: Vec::new(),
        jaw: None,
        wall: Vec::new(),
        temp: args.temp.clone(),
        u: None,
        buried: YesNo::Yes,
        dug: YesNo::Yes,
        cut_end: YesNo::No,
        site: args.site,
        plans: args.plans.clone(),
        print: args.print.clone(),
        told: args.told.clone(),
        cannot: Vec::new(),
        job: None,
        owner: args.owner,
        ask: false,
        json: false,
        explain: false,
        units: UnitsArg::In,
    };
    let asked = ReadArgs {
        units: args.units,
        ..asked
    };
    let left = left(image, &asked)?;
    let mut told = left.told;
    if left.outside {
        bail!(
            "{told}: nothing in the tables explains it\n  try: springline read says what it may be"
        );
    }
    let pipes = || left.pipes.iter().filter(|(.., share)| *share >= COUNTS);
    // A stop among what it may be stops everything, and what it may be beside that is not listed.
    if left.stop {
        let stops = |family: &str| ["gas-pe", "asbestos-cement"].contains(&family);
        let stop = pipes().find(|(family, ..)| stops(family));
        let family = stop.map_or("asbestos-cement", |(family, ..)| family);
        return Ok(Readings {
            ends: vec![format!("{family}:6")],
            told,
            check: None,
        });
    }
    let mut ends: Vec<String> = Vec::new();
    for (family, nominal, _) in pipes() {
        let end = format!("{family}:{nominal}");
        if !ends.contains(&end) {
            ends.push(end);
        }
    }
    if ends.len() > MOST {
        let rest = ends.split_off(MOST).join(", ");
        told.extend(["; less likely, and NOT loaded for: ", &rest]);
    }
    let check = left.check.filter(|_| ends.len() > 1);
    Ok(Readings { ends, told, check })
}
