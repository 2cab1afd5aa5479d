//! Any readings of the built-in image: refused or answered, and weights that sum to one.

#![no_main]

use libfuzzer_sys::arbitrary::{Result, Unstructured};
use libfuzzer_sys::fuzz_target;
use springline_core::Length;
use springline_core::clue::{Plans, Told};
use springline_core::identify::{Cannot, Trench, identify, propose};
use springline_core::image::Image;
use springline_core::reading::{Clock, Query, Reading, Site};
use springline_tables::IMAGE;

fuzz_target!(|data: &[u8]| {
    let Ok(query) = query(&mut Unstructured::new(data)) else {
        return;
    };
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    if let Ok(answer) = identify(&image, &query) {
        let listed = answer
            .candidates()
            .iter()
            .map(|candidate| u64::from(candidate.weight.q30()))
            .sum::<u64>();
        let all = listed + u64::from(answer.rest.q30()) + u64::from(answer.outside.q30());
        assert_eq!(all, 1 << 30, "weights sum to one");
        let _ = propose(
            &image,
            &query,
            &answer,
            Trench {
                dug: query.buried,
                cut_end: true,
            },
            Cannot::none(),
        );
    }
});

fn query(from: &mut Unstructured<'_>) -> Result<Query> {
    let mut query = Query::new();
    query.site = *from.choose(&[Site::Unknown, Site::Irrigation, Site::Municipal])?;
    query.buried = from.arbitrary()?;
    query.temperature = from.arbitrary()?;
    for _ in 0..from.int_in_range(0..=5)? {
        query.clues.tell(Told {
            clue: from.int_in_range(0..=17)?,
            answer: from.int_in_range(0..=40)?,
        });
    }
    if from.arbitrary()? {
        query.clues.plans = Some(Plans {
            family: from.int_in_range(0..=33)?,
            size: from.arbitrary()?,
        });
    }
    for _ in 0..from.int_in_range(0..=Query::CAPACITY)? {
        // The query is never over-full: the loop is as long as it at most.
        let _ = query.add(reading(from)?);
    }
    Ok(query)
}

fn reading(from: &mut Unstructured<'_>) -> Result<Reading> {
    let value = length(from)?;
    let sigma = optional(from)?;
    Ok(match from.int_in_range(0..=6)? {
        0 => Reading::Diameter {
            value,
            clock: held(from)?,
            jaw: optional(from)?,
            sigma,
        },
        4 => Reading::Along {
            value,
            clock: held(from)?,
            jaw: optional(from)?,
            sigma,
        },
        5 => Reading::Wall { value, sigma },
        1 => Reading::DiameterTape { value, sigma },
        2 => Reading::Around { value, sigma },
        3 => Reading::String { value, sigma },
        _ => Reading::Chord {
            chord: value,
            rise: length(from)?,
            sigma,
        },
    })
}

fn held(from: &mut Unstructured<'_>) -> Result<Option<Clock>> {
    if from.ratio(1, 4)? {
        return Ok(Some(Clock::ACROSS));
    }
    Ok(from.arbitrary::<Option<u8>>()?.map(Clock::half_hours))
}

fn optional(from: &mut Unstructured<'_>) -> Result<Option<Length>> {
    if from.arbitrary()? {
        length(from).map(Some)
    } else {
        Ok(None)
    }
}

/// Anything at all, or more often a length that a pipe may have.
fn length(from: &mut Unstructured<'_>) -> Result<Length> {
    let counts = if from.ratio(1, 8)? {
        from.arbitrary()?
    } else {
        from.int_in_range(0..=70 * Length::INCH)?
    };
    Ok(Length::from_counts(counts))
}
