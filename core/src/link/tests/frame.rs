//! Frames, byte by byte.

use super::super::*;
use crate::image::layout::CRC;

/// What comes of bytes, in order.
fn heard(receiver: &mut Receiver, bytes: &[u8]) -> Vec<Result<Vec<u8>, Damage>> {
    bytes
        .iter()
        .filter_map(|byte| Some(receiver.push(*byte)?.map(<[u8]>::to_vec)))
        .collect()
}

fn framed(payload: &[u8]) -> Vec<u8> {
    let mut buffer = vec![0; encoded(payload.len())];
    frame(payload, &mut buffer).unwrap().to_vec()
}

/// CRC-32/ISO-HDLC in the public catalogue of parametrised CRC algorithms: check 0xcbf43926, residue 0xdebb20e3.
#[test]
fn the_check_value_is_that_of_the_public_catalogue() {
    let frame = framed(b"123456789");
    assert_eq!(
        frame,
        [&[0, 14], &b"123456789"[..], &[0x26, 0x39, 0xf4, 0xcb, 0]].concat()
    );
    assert_eq!(
        CRC.checksum(b"123456789\x26\x39\xf4\xcb"),
        0xdebb_20e3 ^ u32::MAX
    );
    let mut receiver = Receiver::new();
    assert_eq!(heard(&mut receiver, &frame), [Ok(b"123456789".to_vec())]);
}

#[test]
fn a_frame_is_as_long_as_is_said() {
    // Where a run of 254 ends, and where a payload is longest.
    for length in [
        1, 248, 249, 250, 251, 252, 503, 504, 505, 511, 512, 513, 2000,
    ] {
        let payload = vec![0xa5; length];
        let needed = framed(&payload).len();
        assert!(needed <= encoded(length), "{length}");
        let mut short = vec![0; needed - 1];
        assert_eq!(frame(&payload, &mut short), Err(Full));
    }
    assert_eq!(MAX_FRAME, 521);
    let longest = [0, 1, 0xff].map(|fill| framed(&[fill; MAX_PAYLOAD]).len());
    assert_eq!(longest.into_iter().max(), Some(MAX_FRAME));
}

#[test]
fn the_longest_is_taken_and_a_longer_one_reported_once() {
    let mut receiver = Receiver::new();
    let mut payload = vec![7; MAX_PAYLOAD];
    payload[0] = 1;
    assert_eq!(
        heard(&mut receiver, &framed(&payload)),
        [Ok(payload.clone())]
    );
    let overlong = Damage::Overlong { head: [1, 7] };
    for more in [1, 2, 3, 4, 5, 100, 5000] {
        let long = [&payload[..], &vec![9; more]].concat();
        let line = [framed(&long), framed(b"next")].concat();
        let expected = [Err(overlong), Ok(b"next".to_vec())];
        assert_eq!(heard(&mut receiver, &line), expected, "{more}");
        // What is too long and damaged is nothing that anyone could answer.
        let mut line = line;
        line[300] ^= 1;
        let expected = [Err(Damage::Broken), Ok(b"next".to_vec())];
        assert_eq!(heard(&mut receiver, &line), expected, "{more}");
    }
}

#[test]
fn zeros_alone_say_nothing_and_too_few_bytes_are_broken() {
    let mut receiver = Receiver::new();
    assert_eq!(heard(&mut receiver, &[0; 9]), []);
    for stuffed in [&[1][..], &[1, 1], &[3, 5, 6], &[2, 1, 1, 1], &[1; 5]] {
        let line = [stuffed, &[0]].concat();
        assert_eq!(heard(&mut receiver, &line), [Err(Damage::Broken)]);
    }
    assert_eq!(heard(&mut receiver, &framed(b"")), [Err(Damage::Broken)]);
}

#[test]
fn the_first_zero_cuts_off_noise_and_the_last_one_ends_the_frame() {
    let mut receiver = Receiver::new();
    let line = [&[0xff, 3, 9][..], &framed(b"a"), &framed(b"b")].concat();
    let expected = [Err(Damage::Broken), Ok(b"a".to_vec()), Ok(b"b".to_vec())];
    assert_eq!(heard(&mut receiver, &line), expected);
}
