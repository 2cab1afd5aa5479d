//! The space of the matrix: every variant at every size that it exists in, every end form, every joint end.

use super::model::{End, Variant};
use crate::model::{ClassRow, Family, NominalSize, OdRow, Sources};
use springline_core::joint::Form;

/// One cell of the matrix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// Index into the variants.
    pub variant: usize,
    /// The nominal size.
    pub size: NominalSize,
    /// The end form.
    pub form: Form,
    /// Index into the joint ends.
    pub end: usize,
}

/// Which cells there are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Space {
    /// The sizes of each variant, as the family lists them.
    sizes: Vec<Vec<NominalSize>>,
    /// Where the cells of each variant begin.
    base: Vec<usize>,
    ends: usize,
    len: usize,
}

impl Space {
    /// The cells of these variants and ends.
    #[must_use]
    pub fn new(sources: &Sources, variants: &[Variant], ends: &[End]) -> Self {
        let mut space = Self {
            sizes: Vec::new(),
            base: Vec::new(),
            ends: ends.len(),
            len: 0,
        };
        for variant in variants {
            let family = &sources.families[variant.family];
            let mut sizes = Vec::new();
            for row in &family.od {
                if let Some(size) = NominalSize::parse(&row.nominal)
                    && !sizes.contains(&size)
                    && is_of(variant, family, row)
                {
                    sizes.push(size);
                }
            }
            space.base.push(space.len);
            space.len += sizes.len() * Form::ALL.len() * ends.len();
            space.sizes.push(sizes);
        }
        space
    }

    /// How many cells there are.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.len
    }

    /// Whether there are none.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// The sizes that a variant exists in.
    #[must_use]
    pub fn sizes(&self, variant: usize) -> &[NominalSize] {
        self.sizes.get(variant).map_or(&[], Vec::as_slice)
    }

    /// The index of a cell; `None` where the variant does not exist in that size.
    #[must_use]
    pub fn index(&self, cell: Cell) -> Option<usize> {
        let at = self
            .sizes(cell.variant)
            .iter()
            .position(|size| *size == cell.size)?;
        Some(self.at(cell.variant, at, cell.form, cell.end))
    }

    /// The index of a cell by the place of its size in [`Self::sizes`].
    pub(super) fn at(&self, variant: usize, size: usize, form: Form, end: usize) -> usize {
        self.base[variant] + (size * Form::ALL.len() + form as usize) * self.ends + end
    }

    /// Every cell with its index, in the order of the indices.
    pub fn cells(&self) -> impl Iterator<Item = (usize, Cell)> {
        let of = move |(variant, sizes): (usize, &Vec<NominalSize>)| {
            let sizes = sizes.clone();
            sizes.into_iter().flat_map(move |size| {
                Form::ALL
                    .iter()
                    .flat_map(move |form| (0..self.ends).map(move |end| (form, end)))
                    .map(move |(form, end)| Cell {
                        variant,
                        size,
                        form: *form,
                        end,
                    })
            })
        };
        self.sizes.iter().enumerate().flat_map(of).enumerate()
    }
}

/// The classes of an OD row.
pub(super) fn classes_of<'f>(
    family: &'f Family,
    row: &'f OdRow,
) -> impl Iterator<Item = &'f ClassRow> {
    family.classes.iter().filter(|class| {
        [&class.nominal, &class.variant, &class.series] == [&row.nominal, &row.variant, &row.series]
    })
}

/// Whether some pipe of an OD row is of a variant. A row whose classes are not known may be of any class.
pub(super) fn is_of(variant: &Variant, family: &Family, row: &OdRow) -> bool {
    let Some(size) = NominalSize::parse(&row.nominal) else {
        return false;
    };
    let mut classes = classes_of(family, row).peekable();
    if classes.peek().is_none() {
        return variant.parts.iter().any(|part| part.band.holds(size));
    }
    classes.any(|class| variant.covers(&class.class, size))
}
