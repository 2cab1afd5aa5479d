//! What is asked of a pipe that is known.

use core::fmt;

use serde::{Deserialize, Serialize};

use crate::image::{Image, Set};
use crate::joint::{Form, Owner, Pipe, Task};

/// A pipe that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PipeAsked {
    /// Its family, an index.
    pub family: u8,
    /// Its nominal size, an index.
    pub size: u8,
    /// Its class, an index of a label, where it is known.
    pub class: Option<u8>,
    /// How its end looks.
    pub form: Form,
    /// Whose it is.
    pub owner: Owner,
}

/// Why there is nothing to say of a pipe or a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[non_exhaustive]
pub enum NoPipe {
    /// The tables have no such size of that family.
    Size,
    /// They have no such class of that size.
    Class,
    /// That size comes in several diameters: the class would tell.
    Several,
    /// There is no such part.
    Part,
}

impl fmt::Display for NoPipe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Size => "no such size of that family",
            Self::Class => "no such class of that size",
            Self::Several => "that size comes in several diameters",
            Self::Part => "no such part",
        })
    }
}

impl core::error::Error for NoPipe {}

impl PipeAsked {
    /// The pipe.
    ///
    /// # Errors
    ///
    /// A [`NoPipe`] where the tables have none such, or several.
    #[inline]
    pub fn find(&self, image: &Image<'_>) -> Result<Pipe, NoPipe> {
        let mut found = Err(NoPipe::Size);
        for row in image.rows_from(0) {
            if (row.family, row.size) != (self.family, self.size) {
                continue;
            }
            let mut variants = image.variants_of(&row);
            if let Some(label) = self.class {
                variants = Set::default();
                for class in image.classes(&row).filter(|class| class.label == label) {
                    variants = variants.with(class.variant);
                }
            }
            match found {
                _ if variants == Set::default() => found = found.or(Err(NoPipe::Class)),
                // A class is that of the first diameter which has it.
                Ok(_) if self.class.is_some() => {}
                Ok(_) => return Err(NoPipe::Several),
                Err(_) => {
                    found = Ok(Pipe {
                        row,
                        variants,
                        form: self.form,
                    });
                }
            }
        }
        found
    }
}

/// The parts of a pipe are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PartsAsked {
    /// The pipe.
    pub pipe: PipeAsked,
    /// What they are to serve, where not all of them are asked for.
    pub task: Option<Task>,
    /// The first part that is asked for, an index.
    pub from: u8,
}

/// What holds a part of a pipe, and what could hurt, is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HeldAsked {
    /// The pipe.
    pub pipe: PipeAsked,
    /// The part, an index; else what holds any joint, and the cautions of all parts.
    pub part: Option<u8>,
    /// How many were told before.
    pub from: u8,
}

/// A pipe on the wire; values that nothing has make a request that cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(in super::super) struct WirePipe {
    family: u8,
    size: u8,
    class: Option<u8>,
    form: u8,
    owner: u8,
}

/// A request on the wire: the pipe, what of it, and from where on.
pub(in super::super) type WireAsked = (WirePipe, Option<u8>, u8);

impl From<PipeAsked> for WirePipe {
    fn from(pipe: PipeAsked) -> Self {
        let PipeAsked {
            family,
            size,
            class,
            form,
            owner,
        } = pipe;
        Self {
            family,
            size,
            class,
            form: form as u8,
            owner: owner as u8,
        }
    }
}

impl WirePipe {
    #[inline]
    pub(in super::super) fn read(self) -> Option<PipeAsked> {
        Some(PipeAsked {
            family: self.family,
            size: self.size,
            class: self.class,
            form: Form::from_code(self.form)?,
            owner: Owner::from_code(self.owner)?,
        })
    }
}

impl PartsAsked {
    pub(in super::super) fn wire(self) -> WireAsked {
        let task = self.task.map(|task| task as u8);
        (self.pipe.into(), task, self.from)
    }

    #[inline]
    pub(in super::super) fn read((pipe, task, from): WireAsked) -> Option<Self> {
        let task = match task {
            Some(code) => Some(Task::from_code(code)?),
            None => None,
        };
        let pipe = pipe.read()?;
        Some(Self { pipe, task, from })
    }
}

impl HeldAsked {
    pub(in super::super) fn wire(self) -> WireAsked {
        (self.pipe.into(), self.part, self.from)
    }

    #[inline]
    pub(in super::super) fn read((pipe, part, from): WireAsked) -> Option<Self> {
        let pipe = pipe.read()?;
        Some(Self { pipe, part, from })
    }
}
