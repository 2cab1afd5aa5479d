//! Temperature, installed deflection and the direction of a diameter.

use super::quad::{Node, cut_normal, gather, gauss, law};

/// Temperature at which the standards state the OD, °F.
const REFERENCE: f64 = 73.4;

/// Temperature minus the reference, °F, with what the user told of it.
pub(super) fn temperature(told: Option<f64>) -> Vec<Node> {
    let (mean, sd) = match told {
        None => (75.0, 17.0),
        Some(t) => {
            // Prior times an error of normal(0, 4): again a normal, cut alike.
            let precision = 17.0_f64.powi(-2) + 4.0_f64.powi(-2);
            (
                (75.0 / 289.0 + t / 16.0) / precision,
                precision.sqrt().recip(),
            )
        }
    };
    let mut nodes = cut_normal(24, mean, sd, 20.0, 140.0);
    for node in &mut nodes {
        node.x -= REFERENCE;
    }
    nodes
}

/// Deflection of a buried pipe as a fraction of the OD, `n` points.
pub(super) fn deflection(n: u32, (m, d): (f64, f64)) -> Vec<Node> {
    if d <= 0.0 {
        return vec![Node { x: 0.0, w: 1.0 }];
    }
    law(gauss(n, 0.0, m + 4.0 * d), |x| {
        (-0.5 * ((x - m) / d).powi(2)).exp()
    })
}

/// Angle in radians between the crown and a diameter of unknown direction:
/// seven in ten within 23° of the springline, the rest anywhere. Over half a
/// turn, which is all that a diameter has.
pub(super) fn any_direction(springline: u32, anywhere: u32) -> Vec<Node> {
    let near = 23_f64.to_radians();
    let quarter = 90_f64.to_radians();
    let mut nodes = gauss(springline, quarter - near, quarter + near);
    for node in &mut nodes {
        node.w *= 0.7 / (2.0 * near);
    }
    let n = f64::from(anywhere);
    // Equal steps: best for something that repeats every half turn.
    nodes.extend((0..anywhere).map(|i| Node {
        x: 2.0 * quarter * (f64::from(i) + 0.5) / n,
        w: 0.3 / n,
    }));
    nodes
}

/// How far the clock position is off, radians: uniform within 15°.
pub(super) fn hour_offset(n: u32) -> Vec<Node> {
    let most = 15_f64.to_radians();
    law(gauss(n, -most, most), |_| 1.0)
}

/// Angle of a clock position from the crown, radians; 12 is the crown.
pub(super) fn hour_angle(hour: u8) -> f64 {
    (30.0 * f64::from(hour)).to_radians()
}

/// By how much of the deflection the diameter at this angle grows.
pub(super) fn growth(angle: f64) -> f64 {
    -(2.0 * angle).cos()
}

/// Law of deflection × growth of one diameter, fractions of the OD.
pub(super) fn deflected(shape: (f64, f64), hour: Option<u8>) -> Vec<Node> {
    let delta = deflection(160, shape);
    if delta.len() == 1 {
        return delta;
    }
    let mut grown = match hour {
        None => any_direction(120, 1024),
        Some(_) => hour_offset(96),
    };
    for node in &mut grown {
        node.x = growth(node.x + hour.map_or(0.0, hour_angle));
    }
    let grown = &grown;
    gather(
        delta.iter().flat_map(|d| {
            grown.iter().map(move |g| Node {
                x: d.x * g.x,
                w: d.w * g.w,
            })
        }),
        512,
    )
}

/// How many times over a chord at the crown (or wherever) sees deflection and
/// out-of-round; `q` is half the chord over the rise. One on half the pipe,
/// three on a short arc.
pub(super) fn chord_factor(q: f64) -> f64 {
    let a = 2.0 * q.recip().atan();
    let sagging = 2.0 * q * (2.0 * a).cos() * a.sin();
    let widening = (1.0 - q * q) * (1.0 - (2.0 * a).cos() * a.cos());
    (0.5 * (sagging + widening)).abs()
}
