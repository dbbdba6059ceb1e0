//! Amounts of material: by volume, by weight or by pack.

use crate::error::Fault;
use crate::quantity::Count;
use crate::reading::{Scaled, Scanner, Written, read_scaled_or_one, written_as_string};
use crate::volume::Volume;
use crate::weight::Weight;
use std::fmt;

/// An amount of material: `15 L`, `25 kg`, `3 bags`, `1 box`.
///
/// ```
/// use grounds_measure::Amount;
/// let needed: Amount = "64 kg".parse()?;
/// assert_eq!(needed.packs_of("25 kg".parse()?), Some(3));
/// # Ok::<(), grounds_measure::MeasureError>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Amount {
    /// By volume: paint, primer, membrane.
    Volume(Volume),
    /// By weight: plaster, adhesive, mortar.
    Weight(Weight),
    /// By pack or piece.
    Packs(Pack, Count),
}

/// What a pack is called. The names are everyday words of a builders' merchant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Pack {
    /// Powders.
    Bag,
    /// Planks and boards.
    Board,
    /// Tiles and flooring.
    Box,
    /// Sealant.
    Cartridge,
    /// Whatever is counted singly: clips, screws, brackets.
    Piece,
    /// Ready-mixed pastes.
    Pail,
    /// Membranes, tapes and papers.
    Roll,
    /// Plasterboard and panels.
    Sheet,
    /// Paints.
    Tin,
    /// Adhesives.
    Tube,
}

/// Packs with their names for one and for many.
static PACKS: &[(Pack, [&str; 2])] = &[
    (Pack::Bag, ["bag", "bags"]),
    (Pack::Board, ["board", "boards"]),
    (Pack::Box, ["box", "boxes"]),
    (Pack::Cartridge, ["cartridge", "cartridges"]),
    (Pack::Piece, ["piece", "pieces"]),
    (Pack::Pail, ["pail", "pails"]),
    (Pack::Roll, ["roll", "rolls"]),
    (Pack::Sheet, ["sheet", "sheets"]),
    (Pack::Tin, ["tin", "tins"]),
    (Pack::Tube, ["tube", "tubes"]),
];

impl Amount {
    /// How many whole packs of this size cover the amount; `None` when the pack is empty or
    /// measured in another way. More than a `u32` holds is its largest value.
    #[must_use]
    pub fn packs_of(self, pack: Self) -> Option<u32> {
        let each = i128::from(pack.small());
        if !self.is_like(pack) || each == 0 {
            return None;
        }
        let packs = (i128::from(self.small()) + each - 1) / each;
        Some(u32::try_from(packs).unwrap_or(u32::MAX))
    }

    /// Whether both are volumes, both weights, or both packs of one name.
    #[must_use]
    pub fn is_like(self, other: Self) -> bool {
        match (self, other) {
            (Self::Volume(_), Self::Volume(_)) | (Self::Weight(_), Self::Weight(_)) => true,
            (Self::Packs(a, _), Self::Packs(b, _)) => a == b,
            _ => false,
        }
    }

    /// Small units of its own kind, never below zero.
    pub(crate) fn small(self) -> i64 {
        match self {
            Self::Volume(volume) => volume.units(),
            Self::Weight(weight) => weight.units(),
            Self::Packs(_, count) => i64::from(count.thousandths()),
        }
    }

    /// The amount of the same kind with so many small units; the most the kind can hold if that is
    /// more.
    pub(crate) fn with_small(self, small: i128) -> Self {
        let small = i64::try_from(small.max(0)).unwrap_or(i64::MAX);
        match self {
            Self::Volume(_) => Self::Volume(Volume::from_small(small)),
            Self::Weight(_) => Self::Weight(Weight::from_small(small)),
            Self::Packs(pack, _) => {
                let thousandths = u32::try_from(small).unwrap_or(u32::MAX);
                Self::Packs(pack, Count::from_thousandths(thousandths))
            }
        }
    }

    /// Reads an amount, or a unit or pack name alone as one of it; `None`, and nothing passed over,
    /// if neither stands here.
    pub(crate) fn read_or_one(scan: &mut Scanner<'_>) -> Result<Option<Self>, Fault> {
        if let Some(volume) = read_scaled_or_one(scan)? {
            return Ok(Some(Self::Volume(volume)));
        }
        if let Some(weight) = read_scaled_or_one(scan)? {
            return Ok(Some(Self::Weight(weight)));
        }
        let mut ahead = scan.clone();
        let count = if ahead.at_number() {
            Count::read_bare(&mut ahead)?
        } else {
            Count::of(1)
        };
        ahead.skip_space();
        let Some(pack) = Pack::eat(&mut ahead) else {
            return Ok(None);
        };
        *scan = ahead;
        Ok(Some(Self::Packs(pack, count)))
    }
}

impl Pack {
    /// The name of one pack.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.names()[0]
    }

    fn names(self) -> [&'static str; 2] {
        PACKS
            .iter()
            .find(|(pack, _)| *pack == self)
            .map_or(["", ""], |(_, names)| *names)
    }

    fn eat(scan: &mut Scanner<'_>) -> Option<Self> {
        scan.eat_spelling(PACKS, |(_, names)| names.as_slice())
            .map(|(pack, _)| *pack)
    }
}

impl Written for Amount {
    const WHAT: &'static str = "amount of material";
    const EXAMPLE: &'static str = "an amount like 15 L, 25 kg, 5 gal, 50 lb or 3 bags";

    fn read(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let mut ahead = scan.clone();
        ahead.number()?;
        match Self::read_or_one(scan)? {
            Some(amount) => Ok(amount),
            None => {
                ahead.skip_space();
                Err(ahead.fault("a unit (L, gal, kg, lb) or a pack (bag, box, sheet, roll, tin …)"))
            }
        }
    }
}

written_as_string!(Amount, "Amount", "amount");

impl fmt::Display for Amount {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Volume(volume) => volume.fmt(f),
            Self::Weight(weight) => weight.fmt(f),
            Self::Packs(pack, count) => {
                let [one, many] = pack.names();
                let name = if *count == Count::of(1) { one } else { many };
                f.pad(&format!("{count} {name}"))
            }
        }
    }
}
