//! Any bytes on a device's line, and on a host's: taken or refused, and what is read is written again as it was.
//!
//! A check value keeps a fuzzer out of everything behind it, so that the same bytes are also taken as a payload and framed.

#![no_main]

use libfuzzer_sys::fuzz_target;
use springline_core::link::{
    Call, Link, MAX_FRAME, MAX_PAYLOAD, MAX_REQUEST, MAX_RESPONSE, Receiver, Reply, Request, frame,
};

fuzz_target!(|data: &[u8]| {
    let mut receiver = Receiver::new();
    let mut link = Link::new();
    for byte in data {
        let call = link.push(*byte);
        match receiver.push(*byte) {
            Some(Ok(payload)) => {
                assert_eq!(call, Some(Call::read(payload)));
                understand(payload);
            }
            Some(Err(_)) => {}
            None => assert_eq!(call, None),
        }
    }
    // After anything at all the next frame is heard, and means what it says.
    let mut buffer = [0; MAX_FRAME];
    let hello = Request::Hello.write(9, &mut buffer).expect("room");
    let calls: Vec<Call> = hello.iter().filter_map(|byte| link.push(*byte)).collect();
    let last = calls.last().expect("a call");
    assert_eq!((last.sequence, last.asked), (9, Ok(Request::Hello)));

    if (1..=MAX_PAYLOAD).contains(&data.len()) {
        assert_eq!(
            unframed(frame(data, &mut buffer).expect("room")),
            data,
            "a payload comes through"
        );
        understand(data);
    }
});

/// The payload of a whole frame.
fn unframed(frame: &[u8]) -> Vec<u8> {
    let mut receiver = Receiver::new();
    let mut heard = None;
    for byte in frame {
        if let Some(payload) = receiver.push(*byte) {
            assert_eq!(heard, None, "one frame, one payload");
            heard = Some(payload.expect("a whole frame").to_vec());
        }
    }
    heard.expect("a frame")
}

/// Reads a payload as both ends would.
fn understand(payload: &[u8]) {
    let mut buffer = [0; MAX_FRAME];
    let call = Call::read(payload);
    if let Ok(request) = call.asked {
        assert!(payload.len() <= MAX_REQUEST);
        let framed = request.write(call.sequence, &mut buffer).expect("room");
        assert_eq!(unframed(framed), payload);
    }
    if let Ok(reply) = Reply::read(payload) {
        assert!(payload.len() <= MAX_RESPONSE);
        let framed = reply.said.write(reply.sequence, &mut buffer).expect("room");
        assert_eq!(unframed(framed), payload);
    }
}
