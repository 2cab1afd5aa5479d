use super::*;
use crate::simulator::random::Part;
use crate::simulator::tally::Mean;
use crate::simulator::wall::Wall;
use springline_core::print::{Thing, read};

/// Draws, each with what is named of it where its line can be read.
fn draws(
    bench: &Bench,
    nature: Nature,
    count: u64,
) -> impl Iterator<Item = (Pipe, Option<usize>, Option<Named>)> {
    (0..count).map(move |number| {
        let pipe = Pipe::draw(bench, &nature, 9, number);
        let mut stream = Stream::new(9, number, Part::Wall);
        let class = Wall::draw(bench, &pipe, &nature, &mut stream).class;
        let mut stream = Stream::new(9, number, Part::Print);
        let named = named(bench, &pipe, class, &nature, &mut stream);
        (pipe, class, named)
    })
}

fn near(what: &str, got: Mean, want: f64) {
    assert!(
        (got.mean - want).abs() < 4.5 * got.error,
        "{what}: {got:?}, {want}"
    );
}

#[test]
fn lines_are_as_often_as_the_model_says() {
    let bench = Bench::new();
    let nature = Nature::believed();
    let all: Vec<_> = draws(&bench, nature, 40_000).collect();
    near(
        "legible",
        Mean::share(all.iter().map(|(_, _, named)| named.is_some())),
        0.5,
    );
    let lines = || {
        all.iter()
            .filter_map(|(pipe, _, named)| Some((pipe, (*named)?)))
    };
    // The mean of .20 and .95, and of two things of one line the mean of the square.
    let read = |named: Named| (named.size.is_some(), named.base.is_some());
    near(
        "read",
        Mean::share(lines().map(|(_, named)| read(named).0)),
        0.575,
    );
    near(
        "both read",
        Mean::share(lines().map(|(_, named)| read(named) == (true, true))),
        0.575 * 0.575 + 0.75 * 0.75 / 12.0,
    );
    let wrong = |all: &[(Pipe, Option<usize>, Option<Named>)]| {
        let sized = all.iter().filter_map(|(pipe, _, named)| {
            Some(bench.image.row(pipe.row as u16).size != (*named)?.size?)
        });
        Mean::share(sized)
    };
    // Misread, or foreign and not by chance the same.
    near("another's size", wrong(&all), 0.01 + 0.003);
    let clean: Vec<_> = draws(&bench, Nature::clean(), 10_000).collect();
    assert!(wrong(&clean).mean.abs() < 1e-12);
}

/// Without misreadings, what is named is the pipe's own, and the engine believes it: no pipe has the line more often but by
/// the shares of classes.
#[test]
fn a_line_that_is_read_right_rules_its_own_class_in() {
    let bench = Bench::new();
    for (pipe, class, named) in draws(&bench, Nature::clean(), 4_000) {
        let Some(named) = named else { continue };
        let row = bench.image.row(pipe.row as u16);
        let class = class.map(|class| class as u8);
        let chance = line(&named).chance(&bench.image, &row, class).to_fixed(20) as f64;
        let chance = chance / 1_048_576.0;
        // Six things at .99 each, where the tables know them all; of a pipe without classes two are any of some.
        let least = if class.is_some() { 0.93 } else { 1e-4 };
        assert!(chance > least, "{named:?} {chance}");
    }
}

/// A line of such things in words, any of those that mean them; a thing that has none is left out.
fn text(image: &Image<'_>, named: &mut Named, stream: &mut Stream) -> String {
    let mut any = |words: Vec<String>| {
        (!words.is_empty()).then(|| words[stream.pick(words.iter().map(|_| 1.0))].clone())
    };
    let mut parts = Vec::new();
    if let Some(size) = named.size {
        let size = image.size(size);
        let metric = size.contains("mm") || size.contains("DN");
        let written = if metric {
            vec![size.to_owned()]
        } else {
            ["IN", "INCH", "\""]
                .map(|unit| format!("{size} {unit}"))
                .to_vec()
        };
        parts.extend(any(written));
    }
    let mut said = |thing: Thing, value: &mut Option<u8>| {
        let of = value.map(|value| {
            let words = image.print_words();
            let own = words.filter(|w| w.thing_and_grade & 15 == thing as u8 && w.value == value);
            own.map(|word| image.print_word(word).to_owned()).collect()
        });
        let found = of.and_then(&mut any);
        *value = value.filter(|_| found.is_some());
        parts.extend(found);
    };
    said(Thing::Base, &mut named.base);
    said(Thing::Standard, &mut named.standard);
    said(Thing::Material, &mut named.material);
    if let Some(class) = named.class {
        let labels = (0..=u8::MAX).filter(|label| image.printed(*label) == class);
        parts.extend(any(labels
            .map(|label| image.label(label).to_owned())
            .collect()));
    }
    if let Some(psi) = named.pressure {
        let written = [
            format!("{psi} PSI"),
            format!("{psi}PSI"),
            format!("PC {psi}"),
        ];
        parts.extend(any(written.to_vec()));
    }
    parts.join(" ")
}

/// Three kinds of line say something else as text. A size that is a DN to one and an OD to another is both. A pressure right
/// behind `PE` is `PE 100`, a code, where there is such a code. `CI` right before a pressure may be `CL` before one, and is
/// nothing.
#[test]
fn the_same_line_as_text_is_read_as_it_is_meant() {
    let bench = Bench::new();
    let (mut lines, mut codes, mut off) = (0, 0, Vec::new());
    let mut stream = Stream::new(9, 0, Part::Told);
    for (_, _, named) in draws(&bench, Nature::believed(), 20_000) {
        let Some(mut named) = named else { continue };
        let text = text(&bench.image, &mut named, &mut stream);
        let meant = line(&named);
        let mut got = Line {
            contents: 0,
            ..read(&bench.image, text.as_bytes())
        };
        if got.sizes().any(|size| Some(size) == named.size) {
            got.sizes = meant.sizes;
        }
        let behind = |word: &str| {
            text.contains(&format!("{word} PSI")) || text.contains(&format!("{word}PSI"))
        };
        if behind("PE 80") || behind("PE 100") {
            codes += 1;
            continue;
        }
        if named
            .pressure
            .is_some_and(|psi| behind(&format!("ci {psi}")))
        {
            codes += 1;
            assert_eq!(got.bases, [0, 0], "{text}");
            got.bases = meant.bases;
        }
        lines += 1;
        if got != meant {
            off.push(format!("{text}: {got:?}, meant {meant:?}"));
        }
    }
    assert!(lines > 9_900 && codes < 60, "{lines} {codes}");
    assert!(
        off.is_empty(),
        "{} of {lines}: {:#?}",
        off.len(),
        &off[..off.len().min(40)]
    );
}
