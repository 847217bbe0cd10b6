//! One entry of a stock, whichever list it is of.

use super::{ClampSize, EndKind, HoseKind, ShelfLength, Stock};

/// The lists of a stock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum StockList {
    /// Hoses.
    #[default]
    Hoses,
    /// End fittings.
    Ends,
    /// Clamps.
    Clamps,
    /// Lengths that can be bought or are on the shelf.
    Lengths,
}

impl StockList {
    /// All, with the words for one and for many.
    pub const ALL: [(Self, &'static str, &'static str); 4] = [
        (Self::Hoses, "hose", "Hoses"),
        (Self::Ends, "end fitting", "End fittings"),
        (Self::Clamps, "clamp", "Clamps"),
        (Self::Lengths, "length", "Lengths"),
    ];

    /// The word for one.
    pub fn one(self) -> &'static str {
        Self::ALL[self as usize].1
    }
}

/// An entry of a stock.
#[derive(Debug, Clone, PartialEq)]
pub enum StockEntry {
    /// A hose.
    Hose(Box<HoseKind>),
    /// An end fitting.
    End(Box<EndKind>),
    /// A clamp.
    Clamp(ClampSize),
    /// A length.
    Length(ShelfLength),
}

impl StockEntry {
    /// Those of a list, in its order.
    pub fn all_of(stock: &Stock, list: StockList) -> Vec<Self> {
        match list {
            StockList::Hoses => {
                stock.hoses.iter().cloned().map(|hose| Self::Hose(Box::new(hose))).collect()
            }
            StockList::Ends => {
                stock.ends.iter().cloned().map(|end| Self::End(Box::new(end))).collect()
            }
            StockList::Clamps => stock.clamps.iter().cloned().map(Self::Clamp).collect(),
            StockList::Lengths => stock.lengths.iter().cloned().map(Self::Length).collect(),
        }
    }

    /// The hose of this id.
    pub fn hose(stock: &Stock, id: &str) -> Option<Self> {
        stock
            .hoses
            .iter()
            .find(|hose| hose.id == id)
            .cloned()
            .map(|hose| Self::Hose(Box::new(hose)))
    }

    /// The end of this id.
    pub fn end(stock: &Stock, id: &str) -> Option<Self> {
        stock.ends.iter().find(|end| end.id == id).cloned().map(|end| Self::End(Box::new(end)))
    }

    /// The list it is of.
    pub fn list(&self) -> StockList {
        match self {
            Self::Hose(_) => StockList::Hoses,
            Self::End(_) => StockList::Ends,
            Self::Clamp(_) => StockList::Clamps,
            Self::Length(_) => StockList::Lengths,
        }
    }

    /// What it is called.
    pub fn name(&self) -> &str {
        match self {
            Self::Hose(hose) => super::name_or(&hose.name, &hose.id),
            Self::End(end) => super::name_or(&end.name, &end.id),
            Self::Clamp(clamp) => super::name_or(&clamp.name, "clamp"),
            Self::Length(length) => &length.hose,
        }
    }

    /// Whether both stand for one part, whatever their figures: hoses and ends by their id, clamps by
    /// name and range, lengths by hose, size, length and whether they are counted.
    pub fn is_same_part(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Hose(one), Self::Hose(other)) => one.id == other.id,
            (Self::End(one), Self::End(other)) => one.id == other.id,
            (Self::Clamp(one), Self::Clamp(other)) => is_same_clamp(one, other),
            (Self::Length(one), Self::Length(other)) => is_same_length(one, other),
            _ => false,
        }
    }

    /// What a stock has of the same part.
    pub fn counterpart(&self, stock: &Stock) -> Option<Self> {
        let place = self.place(stock)?;
        Some(match self {
            Self::Hose(_) => Self::Hose(Box::new(stock.hoses.get(place)?.clone())),
            Self::End(_) => Self::End(Box::new(stock.ends.get(place)?.clone())),
            Self::Clamp(_) => Self::Clamp(stock.clamps.get(place)?.clone()),
            Self::Length(_) => Self::Length(stock.lengths.get(place)?.clone()),
        })
    }

    /// Puts it in the place of another part of its list; at the end where that is not there. Says
    /// whether it was.
    pub fn put_in_place_of(self, other: &Self, stock: &mut Stock) -> bool {
        fn put<T>(list: &mut Vec<T>, place: Option<usize>, one: T) -> bool {
            match place {
                Some(place) => list[place] = one,
                None => list.push(one),
            }
            place.is_some()
        }
        let place = other.place(stock);
        match self {
            Self::Hose(hose) => put(&mut stock.hoses, place, *hose),
            Self::End(end) => put(&mut stock.ends, place, *end),
            Self::Clamp(clamp) => put(&mut stock.clamps, place, clamp),
            Self::Length(length) => put(&mut stock.lengths, place, length),
        }
    }

    /// Puts it into a stock, in the place of the same part.
    pub fn put(self, stock: &mut Stock) -> bool {
        let same = self.clone();
        self.put_in_place_of(&same, stock)
    }

    /// Takes the part out of a stock; a hose that has gone takes its lengths along. Says whether it was
    /// there.
    pub fn take_out(&self, stock: &mut Stock) -> bool {
        let Some(place) = self.place(stock) else { return false };
        match self {
            Self::Hose(hose) => {
                stock.hoses.remove(place);
                if super::catalogue::hose(&hose.id).is_none() {
                    stock.lengths.retain(|length| length.hose != hose.id);
                }
            }
            Self::End(_) => {
                stock.ends.remove(place);
            }
            Self::Clamp(_) => {
                stock.clamps.remove(place);
            }
            Self::Length(_) => {
                stock.lengths.remove(place);
            }
        }
        true
    }

    fn place(&self, stock: &Stock) -> Option<usize> {
        match self {
            Self::Hose(one) => stock.hoses.iter().position(|other| one.id == other.id),
            Self::End(one) => stock.ends.iter().position(|other| one.id == other.id),
            Self::Clamp(one) => stock.clamps.iter().position(|other| is_same_clamp(one, other)),
            Self::Length(one) => stock.lengths.iter().position(|other| is_same_length(one, other)),
        }
    }
}

fn is_same_clamp(one: &ClampSize, other: &ClampSize) -> bool {
    one.name == other.name && one.outside_mm == other.outside_mm
}

fn is_same_length(one: &ShelfLength, other: &ShelfLength) -> bool {
    let part = |length: &ShelfLength| (length.dash, length.length_mm, length.count.is_some());
    one.hose == other.hose && part(one) == part(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clamp(name: &str, price: f64) -> StockEntry {
        let outside_mm = [8.0, 11.0];
        let price = Some(price);
        StockEntry::Clamp(ClampSize { name: name.to_owned(), outside_mm, price, extra: vec![] })
    }

    #[test]
    fn the_same_part_is_put_in_its_own_place() {
        let mut stock = Stock::default();
        assert!(!clamp("a", 1.0).put(&mut stock));
        assert!(!clamp("b", 2.0).put(&mut stock));
        assert!(clamp("a", 3.0).put(&mut stock));
        let prices: Vec<_> = stock.clamps.iter().map(|clamp| clamp.price).collect();
        assert_eq!(prices, [Some(3.0), Some(2.0)]);
        assert_eq!(clamp("a", 0.0).counterpart(&stock), Some(clamp("a", 3.0)));
        assert!(clamp("a", 0.0).take_out(&mut stock));
        assert!(!clamp("a", 0.0).take_out(&mut stock));
        assert_eq!(stock.clamps.len(), 1);
    }
}
