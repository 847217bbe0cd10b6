//! Cut list against optima proven outside this project: `tests/reference/cutting.json`, by
//! `OR-tools` 9.15 (its CP-SAT) and `HiGHS` (through scipy 1.17.1), each optimum by a bound and by both.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

use hosewright::engine::cutting::optimum::{Problem, StockLength, solve};
use serde_json::Value;

fn cases() -> Vec<Value> {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/cutting.json");
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    file["cases"].as_array().unwrap().clone()
}

fn problem(input: &Value) -> Problem {
    let mut problem = Problem { kerf_mm: input["kerf"].as_f64().unwrap(), ..Problem::default() };
    for item in input["items"].as_array().unwrap() {
        let count = item[1].as_u64().unwrap();
        problem.pieces_mm.extend((0..count).map(|_| item[0].as_f64().unwrap()));
    }
    for stock in input["stock"].as_array().unwrap() {
        problem.stock.push(StockLength {
            length_mm: stock["length"].as_f64().unwrap(),
            count: stock["available"].as_u64().map(|count| count as u32),
            price: Some(stock["price"].as_f64().unwrap()),
        });
    }
    problem
}

#[test]
fn every_plan_costs_what_the_proven_optimum_costs() {
    let (mut feasible, mut beaten) = (0, 0);
    for case in cases() {
        let id = case["id"].as_str().unwrap();
        let problem = problem(&case["input"]);
        let answer = solve(&problem);
        assert_eq!(answer.verify(&problem), Ok(()), "{id}");
        let is_whole = answer.too_long.is_empty() && answer.short_of.is_empty();
        assert_eq!(is_whole, case["feasible"].as_bool().unwrap(), "{id}");
        // `OR-tools` and `HiGHS`: the cost to the cent, and proven here by our own bound too.
        if let Some(optimum) = case["optimum"].as_f64() {
            assert_eq!(answer.money(), optimum, "{id}");
            assert!(answer.is_proven(), "{id}: {:?} against {:?}", answer.bound, answer.cost);
            feasible += 1;
            beaten += usize::from(case["ffd_cost"].as_f64().unwrap() > optimum);
        }
    }
    assert_eq!((feasible, beaten), (13, 3), "cases, and those where the first fit is not the best");
}

#[test]
fn a_piece_longer_than_any_length_is_told_and_the_rest_is_cut() {
    let case = cases().into_iter().find(|case| case["id"] == "piece_too_long").unwrap();
    let problem = problem(&case["input"]);
    let answer = solve(&problem);
    // By hand: 1500 mm is in no length of 1000 mm; 200 mm is cut from one of them at 10.
    assert_eq!(answer.too_long, [0]);
    assert_eq!((answer.money(), answer.bars.len()), (10.0, 1));
}
