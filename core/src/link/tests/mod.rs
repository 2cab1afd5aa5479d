//! The link as a whole: its bytes, its sizes, and any messages over any line.

mod any;
mod frame;
mod largest;
mod line;
mod pinned;
mod pinned_numbers;
mod pinned_parts;
mod refused;

use super::{MAX_FRAME, Receiver, Request, Response};
use crate::identify::{Answer, Candidate, Weight};

/// Gives an answer candidates, rows and weights in Q30.
fn list(answer: &mut Answer, candidates: impl IntoIterator<Item = (u16, u32)>) {
    for (row, q30) in candidates {
        let weight = Weight::from_q30(q30);
        answer.candidates[usize::from(answer.listed)] = Candidate { row, weight };
        answer.listed += 1;
    }
}

/// Payload of a frame that is whole.
fn payload(frame: &[u8]) -> Vec<u8> {
    let mut receiver = Receiver::new();
    let mut heard = frame
        .iter()
        .filter_map(|byte| Some(receiver.push(*byte)?.map(<[u8]>::to_vec)));
    let payload = heard.next().expect("a frame").expect("a whole frame");
    assert_eq!(heard.next(), None);
    payload
}

fn request(sequence: u8, request: &Request) -> Vec<u8> {
    let mut buffer = [0; MAX_FRAME];
    request
        .write(sequence, &mut buffer)
        .expect("room for any frame")
        .to_vec()
}

fn response(sequence: u8, response: &Response<'_>) -> Vec<u8> {
    let mut buffer = [0; MAX_FRAME];
    response
        .write(sequence, &mut buffer)
        .expect("room for any frame")
        .to_vec()
}
