//! The numbers of a joint on a pipe of the tables: what a device shows at a trench, and says over the link.
//!
//! Thrust and lengths are those of [`crate::thrust`], bolts, depths, turns and times those of [`crate::assembly`]; here is what they
//! are asked with where nobody sits at a desk: a fitting of the pipe's own size, and what is told of the site. What comes out are
//! [`Figures`], which the panel and the link read alike: written down twice they would not fit a device.

mod about;
mod figures;
mod hold;
mod made;
mod site;

#[cfg(test)]
mod tests;

pub use about::{About, Fixture};
pub use figures::{Figures, NoNumbers, at, page};
pub use made::{is_glued, nominal};
pub use site::SiteTold;
