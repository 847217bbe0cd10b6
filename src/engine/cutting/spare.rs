//! What remaking a hose would add, since a cut too short is scrap.

use crate::model::{Bay, Routing, Run, Side};

use super::cut_list::{CutList, KindCuts, Piece};
use super::optimum::{self, ByMetre, Problem, StockLength, Work};
use super::shopping::{Total, end_price};
use super::stock::Supply;

/// What remakes would add to a cut list as it stands. Asked for by itself: it takes as long as the cut list did.
#[derive(Debug, Clone, PartialEq)]
pub struct Remakes {
    /// Of each hose by itself.
    pub spares: Vec<Spare>,
    /// Of all of them together.
    pub of_all: RemakeOfAll,
}

impl Remakes {
    /// The remakes of a routing's hoses, cut by this cut list.
    pub fn new(bay: &Bay, routing: &Routing, cut_list: &CutList) -> Self {
        Self::within(bay, routing, cut_list, &Work::for_remakes(None))
    }

    /// The same with no more than this work.
    pub fn within(bay: &Bay, routing: &Routing, cut_list: &CutList, work: &Work) -> Self {
        let spares = spares(bay, routing, cut_list);
        Self { of_all: remake_of_all(cut_list, &spares, work), spares }
    }
}

/// What one remake of one hose would add to the cut list as it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Spare {
    /// Id of the run.
    pub run: String,
    /// Its name, or its id.
    pub name: String,
    /// Where its hose would come from.
    pub hose: SpareHose,
    /// Price of both its ends, were they not to be used again; none where one is not known.
    pub ends_price: Option<f64>,
}

/// Where the hose of a remake would come from: the cheapest of what there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpareHose {
    /// From what is left of a length that the cut list cuts into; nothing to buy.
    Leftover {
        /// Its place in [`KindCuts::bars`].
        bar: usize,
    },
    /// From one length more.
    Length {
        /// Its place in [`KindCuts::stock`].
        stock: usize,
        /// Its price; none where that is not known.
        price: Option<f64>,
    },
    /// By the metre.
    Metres {
        /// So much of it, mm.
        length_mm: f64,
        /// What it costs; none where that is not known.
        price: Option<f64>,
    },
    /// From nothing there is.
    Nowhere,
}

impl SpareHose {
    /// What it costs; none where that is not known or where there is none.
    pub fn price(self) -> Option<f64> {
        match self {
            Self::Leftover { .. } => Some(0.0),
            Self::Length { price, .. } | Self::Metres { price, .. } => price,
            Self::Nowhere => None,
        }
    }
}

/// What making every hose once more would add to the cut list as it stands, all of them together: no
/// leftover is used twice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RemakeOfAll {
    /// What hose costs, beside what the cut list leaves over; kinds with a price that is not known are
    /// counted, not summed.
    pub hose: Total,
    /// Whether no hose for it costs less.
    pub hose_is_proven: bool,
    /// Hoses that there would be nothing left to cut from.
    pub not_to_be_had: usize,
    /// All ends again, were none to be used again; hoses with an end of no known price are counted.
    pub ends: Total,
}

/// The remake of all hoses of the cut list.
fn remake_of_all(cut_list: &CutList, spares: &[Spare], work: &Work) -> RemakeOfAll {
    let mut all = RemakeOfAll {
        hose: Total::default(),
        hose_is_proven: true,
        not_to_be_had: 0,
        ends: Total::default(),
    };
    for (place, kind) in cut_list.kinds.iter().enumerate() {
        let work = work.share_of(cut_list.kinds.len() - place);
        let answer = optimum::solve_within(&once_more(kind), &work);
        all.hose.known += answer.money();
        all.hose.unknown_lines += usize::from(answer.unpriced_mm() > 0.0);
        all.hose_is_proven &= answer.is_proven();
        all.not_to_be_had += answer.too_long.len() + answer.short_of.len();
    }
    for spare in spares {
        match spare.ends_price {
            Some(price) => all.ends.known += price,
            None => all.ends.unknown_lines += 1,
        }
    }
    all
}

/// All pieces of a kind again, from what the cut list leaves of its lengths and from those not used.
fn once_more(kind: &KindCuts) -> Problem {
    let used = |stock: usize| kind.bars.iter().filter(|bar| bar.stock == stock).count() as u32;
    let leftovers = kind.bars.iter().filter(|bar| bar.left_mm > 0.0);
    let leftovers = leftovers.map(|bar| StockLength {
        length_mm: bar.left_mm,
        count: Some(1),
        price: Some(0.0),
    });
    let fresh = kind.stock.iter().enumerate().map(|(place, entry)| StockLength {
        count: entry.count.map(|count| count.saturating_sub(used(place))),
        ..entry.for_solver()
    });
    Problem {
        pieces_mm: kind.pieces.iter().map(|piece| piece.cut_mm).collect(),
        kerf_mm: kind.kerf_mm,
        trim_mm: kind.trim_mm,
        stock: leftovers.chain(fresh).collect(),
        by_metre: match (kind.is_sold_by_metre, kind.price_per_m) {
            (false, _) => ByMetre::No,
            (true, None) => ByMetre::Unpriced,
            (true, Some(per_m)) => ByMetre::At(per_m),
        },
    }
}

/// One for each piece of the cut list, each looked at by itself.
fn spares(bay: &Bay, routing: &Routing, cut_list: &CutList) -> Vec<Spare> {
    let pieces = cut_list.kinds.iter().flat_map(|kind| kind.pieces.iter().map(move |p| (kind, p)));
    let spare = |(kind, piece): (&KindCuts, &Piece)| {
        let run = routing.runs.iter().find(|run| run.id == piece.run)?;
        Some(Spare {
            run: piece.run.clone(),
            name: piece.name.clone(),
            hose: hose(kind, piece),
            ends_price: ends_price(bay, run),
        })
    };
    pieces.filter_map(spare).collect()
}

fn hose(kind: &KindCuts, piece: &Piece) -> SpareHose {
    let takes = kind.takes_mm(piece);
    let reaches = |mm: f64| takes <= mm + crate::units::EPS_MM;
    let mut leftovers: Vec<usize> =
        (0..kind.bars.len()).filter(|bar| reaches(kind.bars[*bar].left_mm)).collect();
    leftovers.sort_by(|a, b| kind.bars[*a].left_mm.total_cmp(&kind.bars[*b].left_mm));
    if let Some(bar) = leftovers.first() {
        return SpareHose::Leftover { bar: *bar };
    }
    let used = |stock: usize| kind.bars.iter().filter(|bar| bar.stock == stock).count();
    let lengths = kind.stock.iter().enumerate().filter(|(stock, entry)| {
        reaches(entry.length_mm) && entry.count.is_none_or(|count| used(*stock) < count as usize)
    });
    let lengths =
        lengths.map(|(stock, entry)| SpareHose::Length { stock, price: entry.supply.price() });
    let metres = kind.is_sold_by_metre.then(|| {
        let length_mm = takes + kind.kerf_mm;
        let price = kind.price_per_m.map(|per_m| per_m * length_mm / 1000.0);
        SpareHose::Metres { length_mm, price }
    });
    // A price that is not known is the last resort.
    let dearness = |from: &SpareHose| from.price().unwrap_or(f64::INFINITY);
    lengths
        .chain(metres)
        .min_by(|a, b| dearness(a).total_cmp(&dearness(b)))
        .unwrap_or(SpareHose::Nowhere)
}

fn ends_price(bay: &Bay, run: &Run) -> Option<f64> {
    Some(end_price(bay, run, Side::A)? + end_price(bay, run, Side::B)?)
}

impl Supply {
    /// Whether it has to be bought.
    pub fn is_bought(self) -> bool {
        self != Self::Shelf
    }
}
