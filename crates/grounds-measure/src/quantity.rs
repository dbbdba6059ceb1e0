//! How much work there is: an area, a run or a count.

use crate::area::Area;
use crate::error::Fault;
use crate::length::Length;
use crate::print::exact_decimal;
use crate::reading::{Scanner, read_scaled_or_one};
use serde::{Deserialize, Serialize};
use std::fmt;

/// An amount of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// Face to cover.
    Area(Area),
    /// Run of trim, joint or rail.
    Length(Length),
    /// Pieces, in thousandths so that a rate can be half a piece an hour.
    Count(Count),
}

/// What a quantity counts.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum QuantityKind {
    /// Area.
    Area,
    /// Length.
    Length,
    /// Pieces.
    Count,
}

/// A number of pieces in thousandths, never below zero.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Count(u32);

impl Count {
    /// So many whole pieces; stops at 4 million.
    #[must_use]
    pub const fn of(pieces: u32) -> Self {
        Self(pieces.saturating_mul(1000))
    }

    /// So many thousandths of a piece.
    #[must_use]
    pub const fn from_thousandths(thousandths: u32) -> Self {
        Self(thousandths)
    }

    /// Thousandths of a piece.
    #[must_use]
    pub const fn thousandths(self) -> u32 {
        self.0
    }
}

impl Quantity {
    /// Which kind it is.
    #[must_use]
    pub fn kind(self) -> QuantityKind {
        match self {
            Self::Area(_) => QuantityKind::Area,
            Self::Length(_) => QuantityKind::Length,
            Self::Count(_) => QuantityKind::Count,
        }
    }

    /// The small units of its kind; below zero only for a length.
    pub(crate) fn small(self) -> i64 {
        match self {
            Self::Area(area) => area.units(),
            Self::Length(length) => length.units(),
            Self::Count(count) => i64::from(count.0),
        }
    }
}

impl Quantity {
    /// Reads an area or a length, or a unit of one alone as one of it; `None`, and nothing passed
    /// over, if neither stands here. Counts have no unit and are never read here.
    pub(crate) fn read_or_one(scan: &mut Scanner<'_>) -> Result<Option<Self>, Fault> {
        if let Some(area) = read_scaled_or_one(scan)? {
            return Ok(Some(Self::Area(area)));
        }
        Ok(Length::read_or_one(scan)?.map(Self::Length))
    }
}

impl Count {
    /// Reads a number of pieces without any word.
    pub(crate) fn read_bare(scan: &mut Scanner<'_>) -> Result<Self, Fault> {
        let number = scan.number()?;
        let thousandths = number
            .value
            .whole(1000)
            .and_then(|count| u32::try_from(count).ok());
        thousandths
            .map(Self)
            .ok_or_else(|| scan.fault_at(number.at, "pieces below 4 million, to a thousandth"))
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Area(area) => area.fmt(f),
            Self::Length(length) => length.fmt_run(f),
            Self::Count(count) => count.fmt(f),
        }
    }
}

impl fmt::Display for Count {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&exact_decimal(i64::from(self.0), 1000, 3).unwrap_or_default())
    }
}
