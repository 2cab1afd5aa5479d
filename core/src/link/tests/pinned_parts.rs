//! Bytes of what is asked and said of parts, spelled out: what stands here never changes under one version.

use super::super::*;
use super::pinned::{asks, says};
use crate::joint::{Decides, Form, Owner, Task, Verdict};

fn pipe() -> PipeAsked {
    PipeAsked {
        family: 3,
        size: 200,
        class: None,
        form: Form::PlainBevelled,
        owner: Owner::Unknown,
    }
}

#[test]
fn parts_asked() {
    let asked = |pipe, task, from| Request::Parts(PartsAsked { pipe, task, from });
    asks(asked(pipe(), None, 0), &[5, 3, 200, 0, 0, 0, 0, 0]);
    let mut known = pipe();
    known.class = Some(130);
    asks(asked(known, None, 255), &[5, 3, 200, 1, 130, 0, 0, 0, 255]);
    for (code, form) in [
        Form::PlainBevelled,
        Form::PlainSquare,
        Form::Belled,
        Form::Grooved,
        Form::Threaded,
        Form::Flanged,
    ]
    .into_iter()
    .enumerate()
    {
        let pipe = PipeAsked { form, ..pipe() };
        asks(asked(pipe, None, 0), &[5, 3, 200, 0, code as u8, 0, 0, 0]);
    }
    for (code, owner) in [Owner::Unknown, Owner::Ours, Owner::Purveyor]
        .into_iter()
        .enumerate()
    {
        let pipe = PipeAsked { owner, ..pipe() };
        asks(asked(pipe, None, 0), &[5, 3, 200, 0, 0, code as u8, 0, 0]);
    }
    for (code, task) in [
        Task::Repair,
        Task::Outlet,
        Task::Equipment,
        Task::Turn,
        Task::Road,
        Task::Join,
    ]
    .into_iter()
    .enumerate()
    {
        asks(
            asked(pipe(), Some(task), 9),
            &[5, 3, 200, 0, 0, 0, 1, code as u8, 9],
        );
    }
    let held = |part, from| {
        Request::Held(HeldAsked {
            pipe: pipe(),
            part,
            from,
        })
    };
    asks(held(None, 0), &[6, 3, 200, 0, 0, 0, 0, 0]);
    asks(held(Some(98), 16), &[6, 3, 200, 0, 0, 0, 1, 98, 16]);
}

#[test]
fn parts_said() {
    let one = PartSaid {
        part: 7,
        end: 8,
        own: 9,
        far: false,
        by_class: false,
        verdict: Verdict::Fits,
        decides: Decides::Matrix,
        row: 0x1234,
    };
    let said = |all: &[[u8; 6]], bytes: &[u8]| {
        let said = PartsSaid {
            refused: None,
            parts: Records(all),
            next: None,
        };
        says(
            Response::Parts(Ok(said)),
            &[&[5, 0, 0], bytes, &[0]].concat(),
        );
    };
    said(&[], &[0]);
    said(&[one.bytes()], &[6, 7, 8, 9, 0, 0x34, 0x12]);
    for (code, verdict) in [
        Verdict::Fits,
        Verdict::FitsWith,
        Verdict::Adapter,
        Verdict::Refer,
        Verdict::No,
    ]
    .into_iter()
    .enumerate()
    {
        let bytes = PartSaid { verdict, ..one }.bytes();
        said(&[bytes], &[6, 7, 8, 9, code as u8, 0x34, 0x12]);
    }
    for (code, decides) in [
        Decides::Matrix,
        Decides::Size,
        Decides::Owner,
        Decides::Crew,
        Decides::Thread,
    ]
    .into_iter()
    .enumerate()
    {
        let bytes = PartSaid { decides, ..one }.bytes();
        said(&[bytes], &[6, 7, 8, 9, (code as u8) << 4, 0x34, 0x12]);
    }
    let (far, by_class) = (true, true);
    let bytes = PartSaid { far, ..one }.bytes();
    said(
        &[bytes, one.bytes()],
        &[12, 7, 8, 9, 0, 0x34, 0x92, 7, 8, 9, 0, 0x34, 0x12],
    );
    let bytes = PartSaid { by_class, ..one }.bytes();
    said(&[bytes], &[6, 7, 8, 9, 0, 0x34, 0x52]);
    let refused = PartsSaid {
        refused: Some(200),
        parts: Records(&[]),
        next: Some(32),
    };
    says(Response::Parts(Ok(refused)), &[5, 0, 1, 0xc8, 1, 0, 1, 32]);
    let held = [Held::Holds(4), Held::Forbidden(5), Held::Caution(27)].map(Held::bytes);
    let held = HeldSaid {
        refused: None,
        held: Records(&held),
        next: None,
    };
    says(
        Response::Held(Ok(held)),
        &[6, 0, 0, 6, 0, 4, 1, 5, 2, 27, 0],
    );
    for (code, why) in [NoPipe::Size, NoPipe::Class, NoPipe::Several, NoPipe::Part]
        .into_iter()
        .enumerate()
    {
        says(Response::Parts(Err(why)), &[5, 1, code as u8]);
        says(Response::Held(Err(why)), &[6, 1, code as u8]);
    }
}
