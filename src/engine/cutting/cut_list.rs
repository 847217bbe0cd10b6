//! The cut list of a routing: a finished value that every output is made from.

use crate::engine::{RoutingSolution, hose_kind};
use crate::model::{Bay, Routing};
use crate::units::Length;

use super::Allowances;
use super::optimum::{self, Answer, ByMetre, Problem, Work};
use super::stock::{self, StockEntry, Supply};

/// The cut list for all hoses of a routing.
#[derive(Debug, Clone, PartialEq)]
pub struct CutList {
    /// One for each kind and size of hose, in the order in which the runs first need them.
    pub kinds: Vec<KindCuts>,
    /// Ids of runs left out, because a reference of theirs leads nowhere.
    pub left_out: Vec<String>,
}

/// The cut list for one kind and size of hose.
#[derive(Debug, Clone, PartialEq)]
pub struct KindCuts {
    /// Id of the hose.
    pub hose: String,
    /// Its name.
    pub name: String,
    /// Its size.
    pub dash: u32,
    /// Kerf in force, mm.
    pub kerf_mm: f64,
    /// Whether the kerf was given.
    pub kerf_is_given: bool,
    /// Trim allowance in force, mm.
    pub trim_mm: f64,
    /// Whether the trim allowance was given, not taken by the bore.
    pub trim_is_given: bool,
    /// The pieces, in the order of the runs.
    pub pieces: Vec<Piece>,
    /// The lengths that the file tells of.
    pub stock: Vec<StockEntry>,
    /// Price of a metre, where it is known.
    pub price_per_m: Option<f64>,
    /// Whether it can be bought by the metre.
    pub is_sold_by_metre: bool,
    /// The lengths to cut into.
    pub bars: Vec<BarCuts>,
    /// What to buy by the metre.
    pub metres: Option<MetresCuts>,
    /// Pieces that cannot be cut from what there is.
    pub uncut: Vec<Uncut>,
    /// The money spent, without what has no known price.
    pub cost: f64,
    /// Hose bought at a price that is not known, mm.
    pub unpriced_mm: f64,
    /// How good the cut list is.
    pub proof: Proof,
}

/// One piece of hose, for one run.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Id of the run.
    pub run: String,
    /// Its name, or its id.
    pub name: String,
    /// Cut length, rounded up to the bench's step.
    pub cut_mm: f64,
}

/// One length and what is cut from it.
#[derive(Debug, Clone, PartialEq)]
pub struct BarCuts {
    /// Its place in [`KindCuts::stock`].
    pub stock: usize,
    /// Its length, mm.
    pub length_mm: f64,
    /// How it is come by.
    pub supply: Supply,
    /// Places of its pieces in [`KindCuts::pieces`], longest first.
    pub pieces: Vec<usize>,
    /// What is left, mm.
    pub left_mm: f64,
    /// Places of pieces that could be cut again from what is left, one at a time.
    pub good_for: Vec<usize>,
}

/// Hose bought by the metre.
#[derive(Debug, Clone, PartialEq)]
pub struct MetresCuts {
    /// Places of its pieces in [`KindCuts::pieces`], longest first.
    pub pieces: Vec<usize>,
    /// Its length: each piece with its trim and a cut, mm.
    pub length_mm: f64,
    /// What it costs, where that is known.
    pub price: Option<f64>,
}

/// A piece that the cut list has no hose for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncut {
    /// Its place in [`KindCuts::pieces`].
    pub piece: usize,
    /// Why.
    pub why: WhyUncut,
}

/// Why a piece is not cut. Two shorter ones are never joined.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WhyUncut {
    /// Longer than anything there is.
    #[error("longer than any length there is")]
    TooLong {
        /// The longest length there is, mm.
        longest_mm: f64,
    },
    /// There are not enough lengths.
    #[error("there is not enough hose left for it")]
    NotEnough,
}

/// How good a cut list is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Proof {
    /// No cut list costs less; of those that cost as much, none opens less hose.
    Best,
    /// The search was given up.
    Within {
        /// What no cut list can cost less than.
        at_least: f64,
    },
    /// The cut list did not hold when it was gone over again: a fault of the program. Do not use it.
    Unsound,
}

impl CutList {
    /// The cut list for a routing and its solution. Lengths are rounded up to the step of the unit that the
    /// bay shows.
    pub fn new(
        bay: &Bay,
        routing: &Routing,
        solution: &RoutingSolution,
        allowances: Allowances,
    ) -> Self {
        Self::within(bay, routing, solution, allowances, &Work::default())
    }

    /// The same with no more than this work, shared by the kinds of hose: where it is spent or stopped,
    /// the best cut list so far.
    pub fn within(
        bay: &Bay,
        routing: &Routing,
        solution: &RoutingSolution,
        allowances: Allowances,
        work: &Work,
    ) -> Self {
        let mut kinds: Vec<(&str, u32, Vec<Piece>)> = Vec::new();
        let mut left_out = Vec::new();
        for (i, run) in routing.runs.iter().enumerate() {
            let Some(solved) = solution.run(i) else {
                left_out.push(run.id.clone());
                continue;
            };
            let cut_mm = Length::from_mm(solved.cut_length_mm).up_to_bench_mm(bay.show_units);
            let name = run.shown_name().to_owned();
            let piece = Piece { run: run.id.clone(), name, cut_mm };
            let known = kinds
                .iter_mut()
                .find(|(hose, dash, _)| *hose == run.hose.as_str() && *dash == run.dash);
            match known {
                Some((_, _, pieces)) => pieces.push(piece),
                None => kinds.push((&run.hose, run.dash, vec![piece])),
            }
        }
        let count = kinds.len();
        let kinds = kinds.into_iter().enumerate().map(|(place, (hose, dash, pieces))| {
            let work = work.share_of(count - place);
            KindCuts::new(bay, (hose, dash), pieces, allowances, &work)
        });
        Self { kinds: kinds.collect(), left_out }
    }

    /// Whether every piece can be cut.
    pub fn is_whole(&self) -> bool {
        self.left_out.is_empty()
            && self.kinds.iter().all(|kind| kind.uncut.is_empty() && kind.proof != Proof::Unsound)
    }
}

impl KindCuts {
    fn new(
        bay: &Bay,
        (hose, dash): (&str, u32),
        pieces: Vec<Piece>,
        allowances: Allowances,
        work: &Work,
    ) -> Self {
        let kind = hose_kind(bay, hose);
        let size = kind.and_then(|kind| kind.size(dash));
        let stock = stock::entries(bay, hose, dash);
        let problem = Problem {
            pieces_mm: pieces.iter().map(|piece| piece.cut_mm).collect(),
            kerf_mm: allowances.kerf_in_force_mm(bay.show_units),
            trim_mm: allowances.trim_for(size),
            stock: stock.iter().map(StockEntry::for_solver).collect(),
            by_metre: stock::by_metre(size, &stock),
        };
        let answer = optimum::solve_within(&problem, work);
        let bars = answer.bars.iter().map(|bar| bar_plan(&problem, &stock, bar)).collect();
        let name = kind.map_or(hose, |kind| if kind.name.is_empty() { hose } else { &kind.name });
        Self {
            hose: hose.to_owned(),
            name: name.to_owned(),
            dash,
            kerf_mm: problem.kerf_mm,
            kerf_is_given: allowances.kerf_mm.is_some(),
            trim_mm: problem.trim_mm,
            trim_is_given: allowances.trim_mm.is_some(),
            bars,
            metres: metres(&problem, &answer),
            uncut: uncut(&problem, &answer),
            cost: answer.money(),
            unpriced_mm: answer.unpriced_mm(),
            proof: proof(&problem, &answer),
            price_per_m: size.and_then(|size| size.price_per_m),
            is_sold_by_metre: problem.by_metre != ByMetre::No,
            pieces,
            stock,
        }
    }

    /// What a piece takes of what is left of a length, mm: itself and its trim.
    pub(super) fn takes_mm(&self, piece: &Piece) -> f64 {
        piece.cut_mm + self.trim_mm
    }
}

fn bar_plan(problem: &Problem, stock: &[StockEntry], bar: &optimum::BarCut) -> BarCuts {
    let left_mm = optimum::left_of(problem, bar);
    let fits = |mm: &f64| mm + problem.trim_mm <= left_mm + crate::units::EPS_MM;
    let pieces = problem.pieces_mm.iter().enumerate();
    BarCuts {
        stock: bar.stock,
        length_mm: stock[bar.stock].length_mm,
        supply: stock[bar.stock].supply,
        pieces: bar.pieces.clone(),
        left_mm,
        good_for: pieces.filter(|(_, mm)| fits(mm)).map(|(place, _)| place).collect(),
    }
}

fn metres(problem: &Problem, answer: &Answer) -> Option<MetresCuts> {
    let length_mm = optimum::metres_for(problem, &answer.by_metre);
    let price = match problem.by_metre {
        ByMetre::At(per_m) => Some(per_m * length_mm / 1000.0),
        ByMetre::No | ByMetre::Unpriced => None,
    };
    let pieces = answer.by_metre.clone();
    (!pieces.is_empty()).then_some(MetresCuts { pieces, length_mm, price })
}

fn uncut(problem: &Problem, answer: &Answer) -> Vec<Uncut> {
    let longest_mm = problem.stock.iter().map(|bar| bar.length_mm).fold(0.0, f64::max);
    let too_long = answer.too_long.iter();
    let too_long =
        too_long.map(|piece| Uncut { piece: *piece, why: WhyUncut::TooLong { longest_mm } });
    let short = answer.short_of.iter();
    let short = short.map(|piece| Uncut { piece: *piece, why: WhyUncut::NotEnough });
    too_long.chain(short).collect()
}

fn proof(problem: &Problem, answer: &Answer) -> Proof {
    if answer.verify(problem).is_err() {
        Proof::Unsound
    } else if answer.is_proven() {
        Proof::Best
    } else {
        Proof::Within { at_least: answer.money_bound() }
    }
}
