//! What a device does not do, and what it says to it.

use super::super::*;
use super::request;

#[test]
fn every_intact_frame_is_answered() {
    let refused = |payload: &[u8]| {
        let call = Call::read(payload);
        (call.sequence, call.asked.unwrap_err())
    };
    // Other versions, of any length, whatever else they say.
    for version in (0..=255).filter(|version| *version != VERSION) {
        let ours = Refusal::Version { ours: 1 };
        assert_eq!(refused(&[version]), (0, ours));
        assert_eq!(refused(&[version, 5]), (5, ours));
        assert_eq!(refused(&[version, 5, 0, 9]), (5, ours));
    }
    for number in 8..=255 {
        assert_eq!(refused(&[1, 6, number]), (6, Refusal::Unknown { number }));
        let longer = [1, 6, number, 0, 0];
        assert_eq!(refused(&longer), (6, Refusal::Unknown { number }));
    }
    for (payload, sequence) in [
        (&[][..], 0),
        (&[1], 0),
        (&[1, 7], 7),
        // A body where none belongs, and too short a one.
        (&[1, 7, 0, 0], 7),
        (&[1, 7, 1], 7),
        (&[1, 7, 4], 7),
        // An offset between two pieces, and behind the last.
        (&[1, 7, 2, 1, 1], 7),
        (&[1, 7, 2, 1, 0x80, 8], 7),
        // A form, an owner and a task that there are not, and nothing asked of a pipe.
        (&[1, 7, 5, 0, 0, 0, 6, 0, 0, 0], 7),
        (&[1, 7, 5, 0, 0, 0, 0, 3, 0, 0], 7),
        (&[1, 7, 5, 0, 0, 0, 0, 0, 1, 6, 0], 7),
        (&[1, 7, 6, 0, 0, 0, 6, 0, 0, 0], 7),
        (&[1, 7, 6, 0, 0, 0, 0, 0], 7),
        // A task and numbers that there are not, a site that cannot be, and none.
        (&[1, 7, 7, 0, 0, 0, 0, 0, 1, 0, 0, 0], 7),
        (&[1, 7, 7, 0, 0, 0, 0, 0, 0, 12, 0], 7),
        (&[1, 7, 7, 0, 0, 0, 0, 0, 0, 0, 0xe9, 7], 7),
        (&[1, 7, 7, 0, 0, 0, 0, 0, 0, 0], 7),
        // A setting, a unit and a truth value that there are not.
        (&[1, 7, 3, 6, 0], 7),
        (&[1, 7, 3, 5, 0xe9, 7], 7),
        (&[1, 7, 3, 0, 2], 7),
        (&[1, 7, 3, 3, 2], 7),
        // Inches with a needless byte.
        (&[1, 7, 3, 0, 0x80, 0], 7),
        // Seven readings, and no more bytes.
        (&[1, 7, 1, 7], 7),
        // A clock of 12 half hours; clue 16; clue 3 twice.
        (&[1, 7, 1, 1, 0, 2, 1, 12, 0, 0, 0, 1, 0, 0, 0], 7),
        (&[1, 7, 1, 0, 0, 1, 0, 1, 16, 0, 0], 7),
        (&[1, 7, 1, 0, 0, 1, 0, 2, 3, 0, 3, 0, 0], 7),
    ] {
        let expected = (sequence, Refusal::Malformed);
        assert_eq!(refused(payload), expected, "{payload:?}");
    }
}

#[test]
fn a_host_reads_no_reply_that_a_device_would_not_write() {
    fn read(payload: &[u8]) -> Result<Response<'_>, Refusal> {
        Reply::read(payload).map(|reply| reply.said)
    }
    let piece = |offset: &[u8]| [&[1, 7, 2, 0, 1], offset, &[0x80, 2], &[9; 256]].concat();
    assert_eq!(read(&[1, 7, 3, 0]), Ok(Response::Set(Ok(()))));
    let version = Err(Refusal::Version { ours: 1 });
    assert_eq!(read(&[2, 7, 3, 0]), version);
    assert_eq!(read(&[1, 7, 8]), Err(Refusal::Unknown { number: 8 }));
    // A part of five bytes; verdicts and reasons that there are not; more parts than a page has; what neither holds nor hurts.
    let parts = |count: usize, one: &[u8]| {
        [
            &[1, 7, 5, 0, 0, (count * one.len()) as u8],
            &one.repeat(count)[..],
            &[0],
        ]
        .concat()
    };
    let part = [0; 6];
    let short_part = parts(1, &part[..5]);
    let verdict = parts(1, &[0, 0, 0, 5, 0, 0]);
    let decides = parts(1, &[0, 0, 0, 0x50, 0, 0]);
    let held = [1, 7, 6, 0, 0, 2, 3, 0, 0];
    assert!(matches!(
        read(&parts(21, &part)),
        Ok(Response::Parts(Ok(_)))
    ));
    let many = [&[1, 7, 5, 0, 0, 0xc6, 1][..], &part.repeat(33), &[0]].concat();
    // An answer of nothing at all, whose weights do not sum to one.
    let weightless = [&[1, 7, 1][..], &[0; 17]].concat();
    // A text of 33 bytes, which all others of the greeting follow.
    let long = [&[1, 7, 0, 1, 33][..], &[b'x'; 33], &[0; 36]].concat();
    // A piece of one byte; one between two pieces.
    let short = [1, 7, 2, 0, 1, 0, 1, 9];
    let astray = piece(&[1]);
    for payload in [
        &[][..],
        &[1, 7],
        &[1, 7, 3],
        // More than was said, a needless byte, a reason that there is not, a truth value for bytes.
        &[1, 7, 3, 0, 0],
        &[1, 7, 3, 0x80, 0],
        &[1, 7, 3, 1, 3],
        &[1, 7, 1, 1, 7],
        &[1, 7, 114, 0],
        &[1, 7, 5, 1, 4],
        &short_part,
        &verdict,
        &decides,
        &held,
        &many,
        &weightless,
        &long,
        &short,
        &astray,
    ] {
        assert_eq!(read(payload), Err(Refusal::Malformed), "{payload:?}");
    }
    // They are what they are meant to be: with the one thing put right they are read.
    let mut right = weightless;
    right.splice(11..12, [0x80, 0x80, 0x80, 0x80, 4]);
    assert!(matches!(read(&right), Ok(Response::Identify(Ok(_)))));
    let mut right = long;
    right.remove(5);
    right[4] = 32;
    assert!(matches!(read(&right), Ok(Response::Hello(_))));
    assert!(matches!(read(&piece(&[0x80, 2])), Ok(Response::Screen(_))));
}

#[test]
fn a_link_answers_what_is_too_long_and_counts_what_is_damaged() {
    let mut link = Link::new();
    let mut calls =
        |bytes: &[u8]| -> Vec<Call> { bytes.iter().filter_map(|byte| link.push(*byte)).collect() };
    let long = |version| {
        let mut payload = vec![8; 600];
        payload[0] = version;
        let mut buffer = [0; 700];
        frame(&payload, &mut buffer).unwrap().to_vec()
    };
    let refused = |refusal| Call {
        sequence: 8,
        asked: Err(refusal),
    };
    assert_eq!(calls(&long(1)), [refused(Refusal::Malformed)]);
    assert_eq!(calls(&long(2)), [refused(Refusal::Version { ours: 1 })]);
    assert_eq!(calls(&[9, 9, 9, 0, 7, 0]), []);
    let hello = calls(&request(8, &Request::Hello));
    assert_eq!(hello.len(), 1);
    assert_eq!(hello[0].asked, Ok(Request::Hello));
    assert_eq!(link.damaged(), 2);
}
