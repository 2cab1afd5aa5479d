//! Any message: what is written is read, and is no longer than promised.

use proptest::array::uniform32;
use proptest::collection::vec;
use proptest::option::of;
use proptest::prelude::*;

use super::super::parts::DECIDES;
use super::super::*;
use super::{list, payload, request, response};
use crate::clue::{ClueName, Plans, Told};
use crate::identify::{Answer, Hazards, MAX_CANDIDATES, OutOfRound, Outcome, Weight};
use crate::joint::{Form, Job, Owner, Task, Verdict};
use crate::length::{Length, Unit};
use crate::numbers::{About, Figures, NoNumbers, SiteTold};
use crate::print::Line;
use crate::reading::{Clock, Query, Reading, ReadingError, Site};

fn length() -> impl Strategy<Value = Length> {
    any::<i32>().prop_map(Length::from_counts)
}

fn held() -> impl Strategy<Value = Clock> {
    prop_oneof![(0u8..12).prop_map(Clock::half_hours), Just(Clock::ACROSS)]
}

fn line() -> impl Strategy<Value = Line> {
    let pair = || any::<[u16; 2]>();
    let sets = (any::<[u64; 2]>(), any::<[u32; 2]>());
    (sets, pair(), pair(), pair(), pair(), any::<u8>()).prop_map(
        |((standards, materials), bases, sizes, classes, pressures, contents)| Line {
            standards,
            materials,
            bases,
            sizes,
            classes,
            pressures,
            contents,
        },
    )
}

fn reading() -> impl Strategy<Value = Reading> {
    let of_tape = || (length(), of(length()));
    prop_oneof![
        (length(), of(held()), of(length()), of(length())).prop_map(
            |(value, clock, jaw, sigma)| Reading::Diameter {
                value,
                clock,
                jaw,
                sigma,
            }
        ),
        (length(), of(held()), of(length()), of(length())).prop_map(
            |(value, clock, jaw, sigma)| Reading::Along {
                value,
                clock,
                jaw,
                sigma,
            }
        ),
        of_tape().prop_map(|(value, sigma)| Reading::Wall { value, sigma }),
        of_tape().prop_map(|(value, sigma)| Reading::DiameterTape { value, sigma }),
        of_tape().prop_map(|(value, sigma)| Reading::Around { value, sigma }),
        of_tape().prop_map(|(value, sigma)| Reading::String { value, sigma }),
        (length(), length(), of(length())).prop_map(|(chord, rise, sigma)| Reading::Chord {
            chord,
            rise,
            sigma
        }),
    ]
}

fn site() -> impl Strategy<Value = Site> {
    prop_oneof![
        Just(Site::Unknown),
        Just(Site::Irrigation),
        Just(Site::Municipal)
    ]
}

fn query() -> impl Strategy<Value = Query> {
    let clues = vec((0u8..16, any::<u8>()), 0..20);
    let plans = of((any::<u8>(), of(any::<u8>())));
    let readings = vec(reading(), 0..=Query::CAPACITY);
    let place = (site(), any::<bool>(), of(any::<i32>()));
    let job = proptest::sample::select(Job::ALL);
    let rest = (plans, of(line()), job);
    (readings, place, clues, rest).prop_map(|(readings, place, clues, (plans, print, job))| {
        let mut query = Query::new();
        query.job = job;
        query.clues.print = print;
        (query.site, query.buried, query.temperature) = place;
        for reading in readings {
            query.add(reading).unwrap();
        }
        for (clue, answer) in clues {
            query.clues.tell(Told { clue, answer });
        }
        query.clues.plans = plans.map(|(family, size)| Plans { family, size });
        query
    })
}

fn unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Inch), Just(Unit::Millimetre)]
}

fn pipe() -> impl Strategy<Value = PipeAsked> {
    let form = proptest::sample::select(Form::ALL);
    let owner = proptest::sample::select(Owner::ALL);
    (any::<[u8; 2]>(), of(any::<u8>()), form, owner).prop_map(
        |([family, size], class, form, owner)| PipeAsked {
            family,
            size,
            class,
            form,
            owner,
        },
    )
}

fn part_said() -> impl Strategy<Value = PartSaid> {
    let verdict = proptest::sample::select(Verdict::ALL);
    let decides = proptest::sample::select(&DECIDES[..]);
    let flags = any::<[bool; 2]>();
    (any::<[u8; 3]>(), flags, verdict, decides, 0u16..1 << 14).prop_map(
        |([part, end, own], [far, by_class], verdict, decides, row)| PartSaid {
            part,
            end,
            own,
            far,
            by_class,
            verdict,
            decides,
            row,
        },
    )
}

fn held_said() -> impl Strategy<Value = Held> {
    prop_oneof![
        any::<u8>().prop_map(Held::Holds),
        any::<u8>().prop_map(Held::Forbidden),
        any::<u8>().prop_map(Held::Caution)
    ]
}

fn no_pipe() -> impl Strategy<Value = NoPipe> {
    prop_oneof![
        Just(NoPipe::Size),
        Just(NoPipe::Class),
        Just(NoPipe::Several),
        Just(NoPipe::Part)
    ]
}

fn told() -> impl Strategy<Value = SiteTold> {
    let inches = (of(1..=780u16), of(12..=780u16));
    let rest = (of(1..=1000u16), of(0..255u8), of(-40..=150i16));
    (inches, rest, any::<[bool; 2]>()).prop_map(
        |((cover, stick), (psi, soil, fahrenheit), [wet, open])| SiteTold {
            psi,
            cover,
            soil,
            wet,
            open,
            stick,
            fahrenheit,
        },
    )
}

/// Why there are no numbers, by its code.
pub(super) const NO_NUMBERS: [NoNumbers; 13] = [
    NoNumbers::Pressure,
    NoNumbers::Cover,
    NoNumbers::Temperature,
    NoNumbers::Soil,
    NoNumbers::Drain,
    NoNumbers::Fused,
    NoNumbers::Material,
    NoNumbers::NoPlan,
    NoNumbers::Size,
    NoNumbers::NotGlued,
    NoNumbers::TooCold,
    NoNumbers::TooHot,
    NoNumbers::TooMuchPressure,
];

/// Any request.
pub(super) fn any_request() -> impl Strategy<Value = Request> {
    let part = (0..4u16).prop_map(|part| Part::at(part * 256).unwrap());
    prop_oneof![
        Just(Request::Hello),
        query().prop_map(Request::Identify),
        of(part).prop_map(Request::Screen),
        any::<u8>().prop_map(Request::Log),
        unit().prop_map(|unit| Request::Set(Setting::Unit(unit))),
        unit().prop_map(|unit| Request::Set(Setting::GaugeUnit(unit))),
        of(length()).prop_map(|depth| Request::Set(Setting::JawDepth(depth))),
        site().prop_map(|site| Request::Set(Setting::Site(site))),
        any::<bool>().prop_map(|buried| Request::Set(Setting::Buried(buried))),
        (pipe(), of(proptest::sample::select(Task::ALL)), any::<u8>())
            .prop_map(|(pipe, task, from)| Request::Parts(PartsAsked { pipe, task, from })),
        (pipe(), of(any::<u8>()), any::<u8>())
            .prop_map(|(pipe, part, from)| Request::Held(HeldAsked { pipe, part, from })),
        told().prop_map(|told| Request::Set(Setting::Told(told))),
        (pipe(), proptest::sample::select(&About::ALL[..]), told())
            .prop_map(|(pipe, about, site)| Request::Numbers(NumbersAsked { pipe, about, site })),
    ]
}

fn name() -> impl Strategy<Value = ClueName> {
    prop_oneof![
        any::<u8>().prop_map(ClueName::Clue),
        Just(ClueName::Plans),
        Just(ClueName::Print)
    ]
}

fn outcome() -> impl Strategy<Value = Outcome> {
    prop_oneof![
        Just(Outcome::Settled),
        Just(Outcome::Split),
        Just(Outcome::Outside)
    ]
}

prop_compose! {
    fn answer()(
        size in (length(), length()),
        outcome in outcome(),
        counted in any::<u8>(),
        flags in any::<[bool; 5]>(),
        rows in vec((any::<u16>(), 0u32..1 << 30), 0..=MAX_CANDIDATES),
        rest in 0u32..1 << 30,
        hazards in (0u32..=1 << 30, 0u32..=1 << 30),
        contradiction in of(name()),
        oval in of((length(), any::<u32>())),
    ) -> Answer {
        let mut answer = Answer::new();
        (answer.od, answer.sigma) = size;
        answer.outcome = outcome;
        answer.counted = counted;
        let [cement, gas, likely, short_jaws, disagreement] = flags;
        answer.stop = Hazards { cement, gas };
        (answer.likely, answer.short_jaws, answer.disagreement) = (likely, short_jaws, disagreement);
        // Each takes its share of what the ones before it left.
        let mut left = 1u32 << 30;
        let mut take = |share: u32| {
            let taken = (u64::from(left) * u64::from(share)) >> 30;
            left -= taken as u32;
            taken as u32
        };
        list(&mut answer, rows.into_iter().map(|(row, share)| (row, take(share))));
        answer.rest = Weight::from_q30(take(rest));
        answer.outside = Weight::from_q30(left);
        answer.hazards = Hazards {
            cement: Weight::from_q30(hazards.0),
            gas: Weight::from_q30(hazards.1),
        };
        answer.contradiction = contradiction;
        answer.out_of_round = oval.map(|(spread, share)| OutOfRound { spread, share });
        answer
    }
}

fn reading_error() -> impl Strategy<Value = ReadingError> {
    prop_oneof![
        Just(ReadingError::None),
        Just(ReadingError::OutOfRange),
        Just(ReadingError::RiseUnsure)
    ]
}

/// Writes a response, reads its payload, and gives both to a check.
fn there_and_back(sequence: u8, said: Response<'_>) -> Result<(), TestCaseError> {
    let payload = payload(&response(sequence, &said));
    prop_assert!(payload.len() <= MAX_RESPONSE);
    let reply = Reply { sequence, said };
    prop_assert_eq!(Reply::read(&payload), Ok(reply));
    Ok(())
}

proptest! {
    #[test]
    fn requests_come_through(sequence: u8, asked in any_request()) {
        let payload = payload(&request(sequence, &asked));
        prop_assert!(payload.len() <= MAX_REQUEST);
        prop_assert_eq!(Call::read(&payload), Call { sequence, asked: Ok(asked) });
    }

    #[test]
    fn answers_come_through(sequence: u8, said in prop_oneof![
        answer().prop_map(Ok),
        reading_error().prop_map(Err),
    ]) {
        there_and_back(sequence, Response::Identify(said))?;
    }

    #[test]
    fn logs_come_through(sequence: u8, entry in of((any::<u32>(), answer()))) {
        let entry = entry.map(|(count, answer)| Entry { count, answer });
        there_and_back(sequence, Response::Log(entry))?;
    }

    #[test]
    fn hellos_come_through(
        sequence: u8,
        protocol: u8,
        counter: u32,
        digest in uniform32(any::<u8>()),
        texts in uniform4_texts(),
    ) {
        let [model, serial, firmware, data_set] = texts.each_ref().map(|text| Text::new(text).unwrap());
        let hello = Hello { protocol, model, serial, firmware, data_set, counter, digest };
        there_and_back(sequence, Response::Hello(hello))?;
    }

    #[test]
    fn screens_come_through(sequence: u8, seed: u8, part in of(0..4u16)) {
        let mut frame = [0; PANEL];
        for (at, byte) in (0u8..=255).cycle().zip(&mut frame) {
            *byte = at.wrapping_mul(seed);
        }
        let part = part.and_then(|part| Part::at(part * 256));
        there_and_back(sequence, Response::Screen(Screen::of(&frame, part)))?;
    }

    #[test]
    fn parts_come_through(
        sequence: u8,
        refused in of(any::<u16>()),
        all in vec(part_said(), 0..=PARTS_PAGE),
        next in of(any::<u8>()),
        error in of(no_pipe()),
    ) {
        let bytes: Vec<_> = all.iter().map(|one| one.bytes()).collect();
        let parts = Records(&bytes[..]);
        prop_assert!(parts.iter().eq(all));
        let said = PartsSaid { refused, parts, next };
        there_and_back(sequence, Response::Parts(error.map_or(Ok(said), Err)))?;
    }

    #[test]
    fn what_holds_comes_through(
        sequence: u8,
        refused in of(any::<u16>()),
        all in vec(held_said(), 0..=HELD_PAGE),
        next in of(any::<u8>()),
        error in of(no_pipe()),
    ) {
        let bytes: Vec<_> = all.iter().map(|one| one.bytes()).collect();
        let held = Records(&bytes[..]);
        prop_assert!(held.iter().eq(all));
        let said = HeldSaid { refused, held, next };
        there_and_back(sequence, Response::Held(error.map_or(Ok(said), Err)))?;
    }

    #[test]
    fn numbers_come_through(
        sequence: u8,
        refused in of(any::<u16>()),
        all in vec(any::<[u8; 8]>(), 0..=Figures::MOST),
        why in of(proptest::sample::select(&NO_NUMBERS[..])),
        error in of(no_pipe()),
    ) {
        let figures = Records(&all[..]);
        prop_assert!(figures.iter().map(f64::to_le_bytes).eq(all.iter().copied()));
        let said = NumbersSaid { refused, figures, why };
        there_and_back(sequence, Response::Numbers(error.map_or(Ok(said), Err)))?;
    }

    /// Any bytes are refused, or are the one spelling of what was read from them.
    #[test]
    fn any_bytes_are_read_or_refused(
        number in prop_oneof![0u8..8, 112u8..115, any::<u8>()],
        bytes in vec(prop_oneof![0u8..4, any::<u8>()], 0..60),
    ) {
        let bytes = [&[VERSION, 9, number], &bytes[..]].concat();
        if let Ok(asked) = Call::read(&bytes).asked {
            prop_assert_eq!(&payload(&request(9, &asked)), &bytes);
        }
        if let Ok(reply) = Reply::read(&bytes) {
            prop_assert_eq!(&payload(&response(9, &reply.said)), &bytes);
        }
    }
}

fn uniform4_texts() -> impl Strategy<Value = [String; 4]> {
    proptest::array::uniform4(vec(proptest::char::range(' ', '~'), 0..=Text::MAX))
        .prop_map(|texts| texts.map(String::from_iter))
}
