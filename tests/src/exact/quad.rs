//! Quadrature: Gauss-Legendre nodes, and laws held as weighted points.

use std::f64::consts::PI;

/// A point of a discrete law or of a quadrature rule.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub(super) x: f64,
    pub(super) w: f64,
}

/// Gauss-Legendre rule on `[lo, hi]`; the weights sum to `hi - lo`.
pub(super) fn gauss(n: u32, lo: f64, hi: f64) -> Vec<Node> {
    let order = f64::from(n);
    let (mid, half) = (f64::midpoint(lo, hi), (hi - lo) / 2.0);
    (0..n)
        .map(|i| {
            let mut x = (PI * (f64::from(i) + 0.75) / (order + 0.5)).cos();
            let mut slope = 1.0;
            // Newton doubles the digits each turn; eight are more than enough.
            for _ in 0..8 {
                let (mut p, mut before) = (1.0, 0.0);
                for k in 0..n {
                    let k = f64::from(k);
                    (p, before) = (((2.0 * k + 1.0) * x * p - k * before) / (k + 1.0), p);
                }
                slope = order * (x * p - before) / (x * x - 1.0);
                x -= p / slope;
            }
            Node {
                x: mid - half * x,
                w: 2.0 * half / ((1.0 - x * x) * slope * slope),
            }
        })
        .collect()
}

/// A rule whose weights are those of a law with this density, scaled to one.
pub(super) fn law(rule: Vec<Node>, density: impl Fn(f64) -> f64) -> Vec<Node> {
    let mut nodes = rule;
    for node in &mut nodes {
        node.w *= density(node.x);
    }
    let total: f64 = nodes.iter().map(|n| n.w).sum();
    for node in &mut nodes {
        node.w /= total;
    }
    nodes
}

/// Normal(mean, sd) cut to `[lo, hi]`, as `n` points.
pub(super) fn cut_normal(n: u32, mean: f64, sd: f64, lo: f64, hi: f64) -> Vec<Node> {
    // Beyond 6.5 standard deviations there is nothing to integrate, and a
    // narrow peak needs its nodes near it.
    let from = (mean - 6.5 * sd).clamp(lo, hi);
    let to = (mean + 6.5 * sd).clamp(lo, hi);
    if to - from < 1e-9 {
        return vec![Node { x: from, w: 1.0 }];
    }
    let nearest = mean.clamp(from, to);
    let peak = ((nearest - mean) / sd).powi(2);
    law(gauss(n, from, to), |x| {
        (0.5 * (peak - ((x - mean) / sd).powi(2))).exp()
    })
}

/// Every sum of a point of one law and a point of another.
pub(super) fn sums<'a>(a: &'a [Node], b: &'a [Node]) -> impl Iterator<Item = Node> + Clone + 'a {
    a.iter().flat_map(move |p| {
        b.iter().map(move |q| Node {
            x: p.x + q.x,
            w: p.w * q.w,
        })
    })
}

/// Gathers many points into at most `bins`, each at the mean of what it holds,
/// so that weight and mean of the whole are kept.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a bin number: the quotient lies in 0..=bins and is cut to the last bin"
)]
pub(super) fn gather(points: impl Iterator<Item = Node> + Clone, bins: u16) -> Vec<Node> {
    let (mut lo, mut hi) = (f64::INFINITY, f64::NEG_INFINITY);
    for p in points.clone() {
        lo = lo.min(p.x);
        hi = hi.max(p.x);
    }
    let per_unit = if hi > lo {
        f64::from(bins) / (hi - lo)
    } else {
        0.0
    };
    let mut sums = vec![Node { x: 0.0, w: 0.0 }; usize::from(bins)];
    let last = sums.len() - 1;
    for p in points {
        let at = (((p.x - lo) * per_unit) as usize).min(last);
        sums[at].w += p.w;
        sums[at].x += p.w * p.x;
    }
    sums.retain(|s| s.w > 0.0);
    for s in &mut sums {
        s.x /= s.w;
    }
    sums
}
