//! What leads from one pipe to another, as `tie-in` finds it.

use springline_core::joint::tie::{Chain, On, Site, TieEnd, ties};
use springline_core::joint::{Act, Role, best};

use super::build::Ground;
use super::built::{Built, Joint, Put, Spot};
use crate::fits::known::size;

impl Ground<'_> {
    /// What leads from one pipe to another.
    pub(super) fn ways(&self, two: [char; 2], most: usize) -> Result<Vec<Built>, String> {
        let on = two.map(|pipe| Spot { pipe, piece: false });
        let ends = on.map(|on| {
            Some(TieEnd {
                pipe: self.pipes.pipe(on)?,
                ..self.pipes.at(on)?.tie()
            })
        });
        let [Some(first), Some(second)] = ends else {
            return Err(String::from("there is no such pipe in this job"));
        };
        let asked = [first, second];
        let site = Site {
            dry: Some(self.dry),
            ..Site::default()
        };
        let found = ties(self.image, &asked, site);
        // Two ends that go together as they are want no list: a bell that is there, two flanges, two ends fused.
        let parted = |chain: &&Chain| chain.direct.is_none();
        let all: Vec<&Chain> = found.iter().flatten().filter(parted).collect();
        if all.is_empty() {
            return Err(String::from(
                "no chain of up to three parts leads there: springline tie-in says why",
            ));
        }
        let wet: Vec<&Chain> = all
            .into_iter()
            .filter(|chain| self.dry || chain.dry == 0)
            .collect();
        if wet.is_empty() {
            return Err(String::from(
                "every chain has a joint that cannot be made wet",
            ));
        }
        Ok(wet
            .into_iter()
            .take(most)
            .map(|chain| self.chain(chain, on))
            .collect())
    }

    fn chain(&self, chain: &Chain, on: [Spot; 2]) -> Built {
        let mut built = Built::default();
        let pipe = |of: On| match of {
            On::First => Some(on[0]),
            On::Second => Some(on[1]),
            On::CutOfFirst => Some(Spot {
                piece: true,
                ..on[0]
            }),
            On::CutOfSecond => Some(Spot {
                piece: true,
                ..on[1]
            }),
            On::Part => None,
        };
        for (at, piece) in chain.pieces().enumerate() {
            let part = self.image.part(piece.part);
            built.parts.push(Put {
                part: piece.part,
                told: String::new(),
                act: Act::from_code(part.act_and_stock & 15).unwrap_or(Act::Cut),
                stock: piece.stock,
                sizes: piece
                    .sides
                    .iter()
                    .map(|side| size(self.image.size(side.size)))
                    .collect(),
            });
            for (side, way) in piece.sides.iter().zip(0..) {
                // Of two parts side by side the second says that they are bolted together.
                if side.on == On::Part && way == 1 {
                    continue;
                }
                let on = pipe(side.on);
                let of = on.and_then(|on| self.pipes.pipe(on));
                let found = of.and_then(|pipe| {
                    best(self.image, &pipe.row, pipe.variants, pipe.form, side.end)
                });
                let role = Role::from_code(self.image.joint_end(side.end).role_and_grade & 15);
                built.joints.push(Joint {
                    part: at,
                    end: side.end,
                    on,
                    with: on.is_none().then(|| at.saturating_sub(1)),
                    sealing: found.map(|best| best.sealing),
                    role: role.unwrap_or(Role::Fits),
                });
            }
            let last = piece.sides.last().and_then(|side| pipe(side.on));
            built.pieces.extend(last.filter(|on| on.piece));
        }
        built
    }
}
