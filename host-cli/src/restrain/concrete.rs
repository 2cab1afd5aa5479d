//! A block as it is said to people.

use springline_core::image::Grade;
use springline_core::thrust::block::Shape;

use super::answer::Answer;
use super::block::{Block, Concrete, why_not};
use crate::read::lines::wrap;

/// Writes what is said of a block.
pub(super) fn block(answer: &Answer, block: &Block, out: &mut String) {
    let show = answer.show;
    out.push('\n');
    let face = |area, shape: &Result<Shape, _>| match shape {
        Ok(shape) => format!(
            "{} against undisturbed soil, {} high and {} wide, its middle at the pipe",
            show.area(area),
            show.side(shape.height),
            show.side(shape.width)
        ),
        Err(why) => format!("{} would be needed. {}", show.area(area), why_not(*why)),
    };
    let text = match &block.concrete {
        Concrete::Half => String::from(
            "REFUSED: half a block and half the restraint are no plan. They do not give way together, so each must carry all of it: restrain as above, or ask for the whole block.",
        ),
        Concrete::Side(area, shape) => format!(
            "on the side that the thrust goes to: {}.",
            face(*area, shape)
        ),
        Concrete::Under(base, area, shape) => format!(
            "under it {} on undisturbed soil; and for what goes along the level line {}.",
            show.area(*base),
            face(*area, shape)
        ),
        Concrete::Weight(volume, area, shape) => format!(
            "it pushes UP: a weight of {} under it, with straps over the fitting; and for what goes along the level line {}.",
            show.volume(*volume),
            face(*area, shape)
        ),
    };
    wrap(out, "BLOCK     ", &text.replace("..", "."));
    if matches!(block.concrete, Concrete::Half) {
        return;
    }
    if block.stands() {
        wrap(
            out,
            "          ",
            &format!(
                "It counts only after it has cured {} ({}).",
                time(block.cure),
                block.cure_by
            ),
        );
        wrap(
            out,
            "          ",
            "It carries all of the thrust or nothing: it is not added to restraint.",
        );
        for text in &answer.block_texts {
            wrap(out, "          ", text);
        }
    }
    let grade = block.grade.map_or("", Grade::key);
    wrap(
        out,
        "BEARING   ",
        &format!(
            "{}, {}, {} at {} to the middle of the block; factor {}: {} [{}; {grade}]. Tables differ fourfold: never two mixed.",
            block.table_name,
            block.soil,
            show.stress(block.bearing),
            show.place(block.middle),
            block.factor,
            block.remark,
            block.sources.join(", ")
        ),
    );
}

fn time(duration: springline_core::unit::Duration) -> String {
    let hours = duration.in_hours();
    if hours >= 48.0 {
        format!("{} days", (hours / 24.0 * 10.0).round() / 10.0)
    } else {
        format!("{} h", (hours * 10.0).round() / 10.0)
    }
}
