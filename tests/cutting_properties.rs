//! Cut list by property: gone over again from the question alone, and small ones against every
//! plan there is.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::xorshift::Xorshift;
use hosewright::engine::cutting::optimum::{
    Answer, ByMetre, Cost, Problem, StockLength, Work, left_of, solve, solve_within,
};
use proptest::prelude::*;

fn stock(longest: u32) -> impl Strategy<Value = StockLength> {
    let count = prop_oneof![Just(None), (0_u32..4).prop_map(Some)];
    let price = prop_oneof![1 => Just(None), 1 => Just(Some(0.0)), 5 => (1_u32..90).prop_map(|p| Some(f64::from(p)))];
    (100..longest, count, price).prop_map(|(length, count, price)| StockLength {
        length_mm: f64::from(length),
        count,
        price,
    })
}

fn problem(pieces: usize, kinds: usize) -> impl Strategy<Value = Problem> {
    let lengths = prop::collection::vec((60_u32..900).prop_map(f64::from), 0..=pieces);
    let by_metre = prop_oneof![
        Just(ByMetre::No),
        Just(ByMetre::Unpriced),
        (0_u32..60).prop_map(|price| ByMetre::At(f64::from(price)))
    ];
    let stock = prop::collection::vec(stock(1500), 0..=kinds);
    (lengths, stock, by_metre, 0_u32..6, 0_u32..4).prop_map(
        |(pieces_mm, stock, by_metre, kerf, trim)| Problem {
            pieces_mm,
            stock,
            by_metre,
            kerf_mm: f64::from(kerf),
            trim_mm: f64::from(trim),
        },
    )
}

/// The cost of an answer by hand, in whole millimetres: the contract's rule for each bar, every piece
/// once, no length over-used.
fn by_hand(problem: &Problem, answer: &Answer) -> Cost {
    let takes =
        |piece: &usize| (problem.pieces_mm[*piece] + problem.trim_mm + problem.kerf_mm) as i128;
    let mut seen = vec![0; problem.pieces_mm.len()];
    let mut used = vec![0; problem.stock.len()];
    let mut sum = Cost::default();
    for bar in &answer.bars {
        let stock = &problem.stock[bar.stock];
        let load: i128 = bar.pieces.iter().map(takes).sum();
        assert!(load <= (stock.length_mm + problem.kerf_mm) as i128, "{bar:?}");
        let left = (stock.length_mm as i128 - load).max(0);
        assert_eq!(left_of(problem, bar), left as f64);
        bar.pieces.iter().for_each(|piece| seen[*piece] += 1);
        used[bar.stock] += 1;
        sum.bars += 1;
        sum.opened += stock.length_mm as i128 * 100;
        match stock.price {
            Some(price) => sum.money += price as i128 * 1_000_000_000,
            None => sum.unpriced += stock.length_mm as i128 * 100,
        }
    }
    let others = answer.by_metre.iter().chain(&answer.short_of).chain(&answer.too_long);
    others.for_each(|piece| seen[*piece] += 1);
    assert!(seen.iter().all(|times| *times == 1), "each piece once: {seen:?}");
    for (used, stock) in used.iter().zip(&problem.stock) {
        assert!(stock.count.is_none_or(|count| *used <= count));
    }
    sum.unplaced = answer.short_of.iter().map(takes).sum::<i128>() * 100;
    let metres = answer.by_metre.iter().map(takes).sum::<i128>();
    sum.opened += metres * 100;
    match problem.by_metre {
        ByMetre::At(price) => sum.money += metres * price as i128 * 1_000_000,
        ByMetre::Unpriced => sum.unpriced += metres * 100,
        ByMetre::No => assert!(answer.by_metre.is_empty()),
    }
    sum
}

/// The least cost of all plans: each piece in turn into each length or outside.
fn best_of_all(problem: &Problem) -> Cost {
    let longest = problem.stock.iter().map(|bar| bar.length_mm).fold(-1.0, f64::max);
    let fits = |mm: &f64| problem.by_metre != ByMetre::No || mm + problem.trim_mm <= longest;
    let pieces: Vec<f64> = problem.pieces_mm.iter().copied().filter(fits).collect();
    let mut bars = Vec::new();
    for (kind, stock) in problem.stock.iter().enumerate() {
        let count = stock.count.map_or(pieces.len(), |count| pieces.len().min(count as usize));
        bars.extend((0..count).map(|_| (kind, 0.0)));
    }
    let mut best = None;
    every(problem, &pieces, &mut bars, 0.0, &mut best);
    best.unwrap()
}

fn every(
    problem: &Problem,
    pieces: &[f64],
    bars: &mut Vec<(usize, f64)>,
    outside: f64,
    best: &mut Option<Cost>,
) {
    let Some((piece, rest)) = pieces.split_first() else {
        let cost = cost_of(problem, bars, outside);
        *best = Some(best.map_or(cost, |known| known.min(cost)));
        return;
    };
    let takes = piece + problem.trim_mm + problem.kerf_mm;
    for i in 0..bars.len() {
        let (kind, load) = bars[i];
        // Of empty bars of one kind the first will do.
        let is_first = load > 0.0 || i == 0 || bars[i - 1].0 != kind || bars[i - 1].1 > 0.0;
        if is_first && load + takes <= problem.stock[kind].length_mm + problem.kerf_mm {
            bars[i].1 += takes;
            every(problem, rest, bars, outside, best);
            bars[i].1 = load;
        }
    }
    every(problem, rest, bars, outside + takes, best);
}

fn cost_of(problem: &Problem, bars: &[(usize, f64)], outside: f64) -> Cost {
    let mut sum = Cost::default();
    for (kind, _) in bars.iter().filter(|(_, load)| *load > 0.0) {
        let stock = &problem.stock[*kind];
        let steps = (stock.length_mm * 100.0) as i128;
        sum.bars += 1;
        sum.opened += steps;
        match stock.price {
            Some(price) => sum.money += price as i128 * 1_000_000_000,
            None => sum.unpriced += steps,
        }
    }
    let steps = (outside * 100.0) as i128;
    match problem.by_metre {
        ByMetre::No => sum.unplaced += steps,
        ByMetre::Unpriced => {
            sum.unpriced += steps;
            sum.opened += steps;
        }
        ByMetre::At(price) => {
            sum.money += steps * price as i128 * 10_000;
            sum.opened += steps;
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn small_plans_are_the_best_of_all_plans(problem in problem(6, 3)) {
        let answer = solve(&problem);
        prop_assert!(answer.is_proven());
        prop_assert_eq!(answer.cost, best_of_all(&problem));
        prop_assert_eq!(answer.cost, by_hand(&problem, &answer));
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    #[test]
    fn a_plan_holds_when_it_is_gone_over_again(problem in problem(60, 5)) {
        let answer = solve(&problem);
        prop_assert_eq!(answer.verify(&problem), Ok(()));
        prop_assert_eq!(answer.cost, by_hand(&problem, &answer));
        prop_assert!(answer.bound <= answer.cost);
        prop_assert_eq!(&answer, &solve(&problem), "the same every time");
    }

    #[test]
    fn two_lengths_in_any_number_are_proven_up_to_forty_pieces_or_within_the_price_of_one(
        pieces in prop::collection::vec((60_u32..660).prop_map(|n| f64::from(n) * 5.0), 1..=40),
        long in 20_u32..60,
        kerf in 0_u32..4,
    ) {
        let stock = [(6000.0, 60.0), (f64::from(long) * 200.0, f64::from(long) * 2.1)];
        let stock = stock.map(|(length_mm, price)| StockLength { length_mm, count: None, price: Some(price) });
        let problem = Problem { pieces_mm: pieces, kerf_mm: f64::from(kerf), stock: stock.to_vec(), ..Problem::default() };
        let answer = solve(&problem);
        // Now and then one is not proven within the steps that are given to it; the gap is stated. The next
        // cheaper choice of lengths may be dearer than a hundredth below, where there are few of them.
        let least = solve(&Problem { pieces_mm: vec![1.0], ..problem.clone() }).cost.money;
        let gap = answer.cost.money - answer.bound.money;
        prop_assert!(
            answer.is_proven() || gap < least,
            "{:?} against {:?}", answer.bound, answer.cost
        );
        prop_assert!(answer.short_of.is_empty() && answer.too_long.is_empty());
    }
}

/// Pieces of 300 to 3295 mm. The same every time: what is proven once stays proven, for the search counts
/// steps.
fn pieces(chance: &mut Xorshift, count: usize) -> Vec<f64> {
    (0..count).map(|_| (300 + 5 * chance.below(600)) as f64).collect()
}

fn bought(length_mm: f64, count: Option<u32>, price: f64) -> StockLength {
    StockLength { length_mm, count, price: Some(price) }
}

#[test]
fn forty_pieces_from_lengths_of_fixed_price_are_proven() {
    let mut chance = Xorshift(88_172_645_463_325_252);
    let stocks = [
        vec![bought(6000.0, None, 60.0), bought(7600.0, None, 79.8)],
        vec![bought(6000.0, None, 60.0), bought(4000.0, None, 43.0)],
        vec![
            bought(20_000.0, None, 190.0),
            bought(10_000.0, None, 99.0),
            bought(2300.0, Some(1), 0.0),
        ],
    ];
    for round in 0..4 {
        for stock in &stocks {
            let problem = Problem {
                pieces_mm: pieces(&mut chance, 40),
                kerf_mm: 2.0,
                stock: stock.clone(),
                ..Problem::default()
            };
            let answer = solve(&problem);
            assert_eq!(answer.verify(&problem), Ok(()));
            assert!(answer.is_proven(), "round {round}, {stock:?}: {:?}", answer.bound);
        }
    }
}

/// Hard ones: every millimetre changes the cost, and a metre costs nearly the same either way.
#[test]
fn thirty_pieces_from_lengths_and_by_the_metre_are_proven() {
    let mut chance = Xorshift(88_172_645_463_325_252);
    let stock = [bought(6000.0, None, 60.0), bought(4000.0, None, 43.0)];
    let mut mixed = 0;
    for per_m in [10.0, 10.5, 10.5, 11.0] {
        let problem = Problem {
            pieces_mm: pieces(&mut chance, 30),
            kerf_mm: 3.0,
            stock: stock.to_vec(),
            by_metre: ByMetre::At(per_m),
            ..Problem::default()
        };
        let answer = solve(&problem);
        assert_eq!(answer.verify(&problem), Ok(()));
        assert!(
            answer.is_proven(),
            "{per_m} a metre: {:?} against {:?}",
            answer.bound,
            answer.cost
        );
        mixed += usize::from(!answer.by_metre.is_empty() && !answer.bars.is_empty());
    }
    assert!(mixed > 0, "of both");
}

/// Found by the test above, when fewer steps were given: hard to prove.
#[test]
fn a_hard_plan_of_two_lengths_is_proven() {
    let pieces = [
        2535, 2895, 3205, 1905, 655, 2300, 1105, 1110, 3145, 1895, 1295, 1945, 1250, 355, 1815,
        2510, 440, 2510, 1785, 1415, 2350, 2155, 1275, 2480, 975, 3035, 670, 2825, 885, 755, 1415,
        1330, 2850, 2270, 3015, 3290, 850,
    ];
    let stock = [(6000.0, 60.0), (56.0 * 200.0, 56.0 * 2.1)];
    let stock =
        stock.map(|(length_mm, price)| StockLength { length_mm, count: None, price: Some(price) });
    let problem = Problem {
        pieces_mm: pieces.map(f64::from).to_vec(),
        kerf_mm: 3.0,
        stock: stock.to_vec(),
        ..Problem::default()
    };
    let answer = solve(&problem);
    assert!(answer.is_proven(), "{:?} against {:?}", answer.bound, answer.cost);
}

#[test]
fn a_plan_with_a_fault_is_found_out() {
    let stock = StockLength { length_mm: 1000.0, count: Some(2), price: Some(10.0) };
    let problem = Problem {
        pieces_mm: vec![400.0, 500.0, 600.0],
        kerf_mm: 3.0,
        stock: vec![stock],
        ..Problem::default()
    };
    let sound = solve(&problem);
    assert_eq!(sound.verify(&problem), Ok(()));
    let spoilt: [fn(&mut Answer); 6] = [
        |answer| answer.bars[0].pieces.clear(),
        |answer| answer.bars[0].pieces.push(0),
        |answer| answer.bars[0].stock = 7,
        |answer| answer.cost.money -= 1,
        |answer| {
            let moved = answer.bars[1].pieces.clone();
            answer.bars[1].pieces.clear();
            answer.bars[0].pieces.extend(moved);
        },
        |answer| {
            let moved = answer.bars[1].pieces.pop().unwrap();
            answer.by_metre.push(moved);
        },
    ];
    for spoil in spoilt {
        let mut answer = sound.clone();
        spoil(&mut answer);
        assert!(answer.verify(&problem).is_err(), "{answer:?}");
    }
}

#[test]
fn numbers_out_of_all_reason_do_no_harm() {
    for odd in [0.0, 1e300, f64::MAX] {
        let stock = StockLength { length_mm: odd, count: Some(u32::MAX), price: Some(odd) };
        let problem = Problem {
            pieces_mm: vec![odd, 100.0, 1e-9],
            kerf_mm: odd,
            trim_mm: odd,
            stock: vec![stock],
            by_metre: ByMetre::At(odd),
        };
        assert_eq!(solve(&problem).verify(&problem), Ok(()), "{odd}");
    }
    assert_eq!(solve(&Problem::default()).cost, Cost::default());
}

/// 200 pieces of 200 to 2000 mm and 12 lengths, a few of each.
fn large() -> Problem {
    let mut chance = Xorshift(88_172_645_463_325_252);
    let pieces_mm = (0..200).map(|_| (200 + 5 * chance.below(360)) as f64).collect();
    let stock = (0..12_u32).map(|k| StockLength {
        length_mm: f64::from(2000 + 500 * k) + chance.below(300) as f64,
        count: Some(3 + chance.below(20) as u32),
        price: Some(f64::from(20 + 8 * (k + 1)) + chance.below(16) as f64 / 2.0),
    });
    Problem { pieces_mm, kerf_mm: 3.0, trim_mm: 1.0, stock: stock.collect(), ..Problem::default() }
}

#[test]
fn two_hundred_pieces_and_twelve_lengths_end_with_the_best_and_its_gap() {
    let problem = large();
    let answer = solve(&problem);
    answer.verify(&problem).unwrap();
    assert!(answer.too_long.is_empty() && answer.short_of.is_empty());
    let gap = answer.money() / answer.money_bound() - 1.0;
    assert!((0.0..0.05).contains(&gap), "{gap}");
}

#[test]
fn a_search_that_is_stopped_still_gives_a_sound_cut_list() {
    let problem = large();
    let asked = std::rc::Rc::new(std::cell::Cell::new(0));
    let count = std::rc::Rc::clone(&asked);
    let stop = move |done: f32| {
        assert!((0.0..=1.0).contains(&done));
        count.set(count.get() + 1);
        count.get() < 3
    };
    let answer = solve_within(&problem, &Work::watched(Some(std::rc::Rc::new(stop))));
    assert_eq!(asked.get(), 3, "asked no more once it is stopped");
    answer.verify(&problem).unwrap();
    assert!(!answer.is_proven() && answer.short_of.is_empty());
}
