//! Real queries and answers over the link: a host gets the device's answer bit for bit.

use springline_core::Length;
use springline_core::clue::{Plans, Told};
use springline_core::identify::identify;
use springline_core::image::Image;
use springline_core::link::{Link, MAX_FRAME, Receiver, Reply, Request, Response};
use springline_core::reading::{Clock, Query, Reading};
use springline_tables::IMAGE;

/// A device that only identifies.
struct Device<'a> {
    image: Image<'a>,
    link: Link,
}

impl Device<'_> {
    /// What it sends back on bytes off the line.
    fn hear(&mut self, bytes: &[u8]) -> Vec<u8> {
        let mut line = Vec::new();
        for byte in bytes {
            let Some(call) = self.link.push(*byte) else {
                continue;
            };
            let response = match call.asked {
                Ok(Request::Identify(query)) => Response::Identify(identify(&self.image, &query)),
                Ok(other) => panic!("not asked: {other:?}"),
                Err(refusal) => Response::Refused(refusal),
            };
            let mut buffer = [0; MAX_FRAME];
            let frame = response.write(call.sequence, &mut buffer);
            line.extend_from_slice(frame.expect("room for any frame"));
        }
        line
    }
}

fn queries() -> impl Iterator<Item = Query> {
    (0..=6_600).map(|step: i32| {
        // Every hundredth of an inch, and nothing, which is no reading.
        let value = Length::from_mils(step * 10).expect("a short length");
        let sigma = None;
        let mut query = Query::new();
        let mut add = |reading| query.add(reading).expect("room for a few");
        match step % 4 {
            0 => add(Reading::DiameterTape { value, sigma }),
            1 => add(Reading::Diameter {
                value,
                clock: None,
                jaw: None,
                sigma,
            }),
            _ => {
                for (half_hours, apart) in [(0, 0), (6, step % 7)] {
                    let apart = Length::from_mils(apart * 10).expect("a short length");
                    add(Reading::Diameter {
                        value: value + apart,
                        clock: Some(Clock::half_hours(half_hours)),
                        jaw: None,
                        sigma,
                    });
                }
            }
        }
        let low = step.to_le_bytes()[0];
        if step % 3 == 0 {
            query.clues.tell(Told {
                clue: low % 5,
                answer: low % 23,
            });
        }
        if step % 11 == 0 {
            let size = (step % 2 == 0).then_some(low % 30);
            let family = low % 20;
            query.clues.plans = Some(Plans { family, size });
        }
        query
    })
}

#[test]
fn a_host_gets_the_answer_of_the_device_bit_for_bit() {
    let image = Image::new(IMAGE).expect("the built-in image passes its gate");
    let mut device = Device {
        image,
        link: Link::new(),
    };
    let mut receiver = Receiver::new();
    let (mut answers, mut refused, mut longest) = (0, 0, 0);
    for (query, sequence) in queries().zip((0..=255).cycle()) {
        let mut buffer = [0; MAX_FRAME];
        let request = Request::Identify(query).write(sequence, &mut buffer);
        let line = device.hear(request.expect("room for any frame"));
        longest = longest.max(line.len());
        let mut replies = 0;
        for byte in line {
            let Some(payload) = receiver.push(byte) else {
                continue;
            };
            let reply = Reply::read(payload.expect("a whole frame")).expect("a reply");
            let expected = Response::Identify(identify(&image, &query));
            assert_eq!((reply.sequence, reply.said), (sequence, expected));
            match reply.said {
                Response::Identify(Ok(_)) => answers += 1,
                _ => refused += 1,
            }
            replies += 1;
        }
        assert_eq!(replies, 1, "{query:?}");
    }
    println!("{answers} answers, {refused} without, the longest frame {longest} bytes");
    assert!(answers > 6_000 && refused > 0);
}
