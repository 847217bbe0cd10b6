//! What the bay file's `stock.lengths` and prices mean for a cut list.

use crate::model::{Bay, HoseSize};

use super::optimum::{ByMetre, StockLength};

/// How a length is come by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Supply {
    /// It is there and paid for: a length with a count and no price, or of price 0.
    Shelf,
    /// To be bought at this price each.
    Buy(f64),
    /// To be bought, the price not known: a length with neither count nor price.
    BuyUnpriced,
}

impl Supply {
    /// What using one costs; none where that is not known.
    pub fn price(self) -> Option<f64> {
        match self {
            Self::Shelf => Some(0.0),
            Self::Buy(price) => Some(price),
            Self::BuyUnpriced => None,
        }
    }
}

/// One entry of `stock.lengths`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockEntry {
    /// Its length.
    pub length_mm: f64,
    /// How many; no end of them where absent.
    pub count: Option<u32>,
    /// How it is come by.
    pub supply: Supply,
}

impl StockEntry {
    pub(super) fn for_solver(&self) -> StockLength {
        StockLength { length_mm: self.length_mm, count: self.count, price: self.supply.price() }
    }
}

/// The lengths of one hose and size, in the order of the file.
pub(super) fn entries(bay: &Bay, hose: &str, dash: u32) -> Vec<StockEntry> {
    let own = bay.stock.lengths.iter().filter(|length| length.hose == hose && length.dash == dash);
    own.map(|length| StockEntry {
        length_mm: length.length_mm,
        count: length.count,
        supply: match (length.price, length.count) {
            (Some(price), _) if price > 0.0 => Supply::Buy(price),
            (Some(_), _) | (None, Some(_)) => Supply::Shelf,
            (None, None) => Supply::BuyUnpriced,
        },
    })
    .collect()
}

/// Whether a hose can be bought by the metre: where its size has a price for it, or where the file
/// tells of no lengths at all; then the price is not known.
pub(super) fn by_metre(size: Option<&HoseSize>, entries: &[StockEntry]) -> ByMetre {
    match size.and_then(|size| size.price_per_m) {
        Some(price) => ByMetre::At(price),
        None if entries.is_empty() => ByMetre::Unpriced,
        None => ByMetre::No,
    }
}
