//! Columns alone, from the quick cut list on, against what the search over choices of lengths proves.

use super::super::Work;
use super::super::problem::{ByMetre, Problem, Steps, StockLength};
use super::super::search;
use super::super::start::start;
use super::prove;

/// The same numbers every time.
struct Numbers(u64);

impl Numbers {
    fn below(&mut self, n: u64) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 % n
    }

    fn problem(&mut self) -> Problem {
        let kinds = 1 + self.below(4);
        let by_metre = match self.below(4) {
            0 => ByMetre::No,
            1 => ByMetre::Unpriced,
            _ => ByMetre::At(8.0 + self.below(60) as f64 / 10.0),
        };
        let pieces = 1 + self.below(14);
        Problem {
            pieces_mm: (0..pieces).map(|_| (300 + 5 * self.below(500)) as f64).collect(),
            kerf_mm: self.below(4) as f64,
            trim_mm: [0.0, 1.6, 3.175][self.below(3) as usize],
            stock: (0..kinds).map(|_| self.stock()).collect(),
            by_metre,
        }
    }

    fn stock(&mut self) -> StockLength {
        let length_mm = (1500 + 100 * self.below(60)) as f64;
        let price = match self.below(8) {
            0 => None,
            1 => Some(0.0),
            _ => Some((length_mm / 100.0 * (0.8 + self.below(40) as f64 / 100.0)).round()),
        };
        let count = (self.below(2) == 0).then(|| 1 + self.below(3) as u32);
        StockLength { length_mm, count, price }
    }
}

#[test]
fn columns_alone_prove_what_the_search_proves() {
    let mut numbers = Numbers(88_172_645_463_325_252);
    let mut improved = 0;
    for case in 0..400 {
        let steps = Steps::of(&numbers.problem(), &Work::default());
        let known = search::search(&steps);
        assert_eq!(known.bound, known.draft.cost, "case {case}");
        let quick = start(&steps);
        let proved = prove(&steps, &quick).unwrap();
        assert_eq!(proved.bound, known.bound, "case {case}: {steps:?}");
        assert_eq!(proved.draft.cost, known.draft.cost, "case {case}");
        improved += usize::from(proved.draft.cost < quick.cost);
    }
    assert!(improved > 50, "the quick cut list was the best too often: {improved}");
}
