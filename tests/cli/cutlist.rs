//! `plan`: cut list and shopping list, as text, JSON and CSV. Lengths and prices by hand.

use serde_json::{Value, json};

use crate::bench::{Bench, all_bays};
use crate::csv::records;

/// The test bay in millimetres with one routing: two fuel returns, straight from port to port.
///
/// By hand: the seats are 880 mm apart, both set-backs 21 mm, thus 838 mm of hose without slack.
fn two_returns(change: impl FnOnce(&mut Value)) -> Bench {
    Bench::with_changed_bay(|bay| {
        bay["show_units"] = "mm".into();
        let mut routing = bay["routings"][1].clone();
        routing["runs"][0]["slack_pct"] = 0.into();
        let mut second = routing["runs"][0].clone();
        second["id"] = "second".into();
        second["name"] = "Second return".into();
        routing["runs"].as_array_mut().unwrap().push(second);
        bay["routings"] = json!([routing]);
        change(bay);
    })
}

fn stock(bay: &mut Value, lengths: &Value) {
    bay["stock"]["lengths"] = lengths.clone();
}

fn planned(bench: &Bench, more: &[&str]) -> (Option<i32>, Value) {
    let args = [&["cutlist", "my.bay.json", "--json"][..], more].concat();
    let ended = bench.run(&args);
    assert_eq!(ended.err, "", "{ended:?}");
    // `from_str` refuses anything after the document.
    (ended.status, serde_json::from_str(&ended.out).unwrap())
}

const EXACT: [&str; 4] = ["--kerf", "4 mm", "--trim", "2 mm"];

#[test]
fn a_kerf_lies_between_the_pieces_and_a_trim_on_each() {
    // 2 × (838 + 2) + 4 = 1684 mm: goes into 1684, not into 1683.
    for (length, bars, left) in [(1684, 1, 0.0), (1683, 2, 839.0), (1690, 1, 2.0)] {
        let bench = two_returns(|bay| {
            let length =
                json!([{ "hose": "ptfe-100r14", "dash": 6, "length": length, "price": 10 }]);
            stock(bay, &length);
        });
        let (_, plan) = planned(&bench, &EXACT);
        let kind = &plan["cutting"][0];
        assert_eq!(kind["pieces"][0]["cut_mm"], 838.0);
        assert_eq!(kind["lengths"].as_array().unwrap().len(), bars, "{length}");
        assert_eq!(kind["lengths"][0]["left_mm"], left, "{length}");
        assert_eq!(kind["price"], 10.0 * bars as f64);
        assert_eq!(kind["proven"], true);
    }
}

#[test]
fn what_is_on_the_shelf_is_used_before_any_is_bought() {
    let bench = two_returns(|bay| {
        let lengths = json!([
            { "hose": "ptfe-100r14", "dash": 6, "length": 2000, "price": 25 },
            { "hose": "ptfe-100r14", "dash": 6, "length": 900, "price": 14 },
            { "hose": "ptfe-100r14", "dash": 6, "length": 1800, "count": 1 },
        ]);
        stock(bay, &lengths);
    });
    let (_, plan) = planned(&bench, &EXACT);
    let bars = plan["cutting"][0]["lengths"].as_array().unwrap();
    assert_eq!((bars.len(), &bars[0]["supply"]), (1, &json!("shelf")));
    assert_eq!(plan["shopping"][0]["price"], 0.0);
    // 1800 − 2 × 844 = 112 mm: good for nothing; a spare is cheapest from 900 mm.
    assert_eq!(bars[0]["left_mm"], 112.0);
    assert_eq!(bars[0]["left_good_for"], json!([]));
    let spare = &plan["spares"][0];
    assert_eq!((&spare["hose_mm"], &spare["hose_price"]), (&json!(900.0), &json!(14.0)));
    assert_eq!(spare["ends_price"], Value::Null, "not known");
}

#[test]
fn what_is_left_says_what_it_is_good_for() {
    let bench = two_returns(|bay| {
        let length = json!([{ "hose": "ptfe-100r14", "dash": 6, "length": 3000, "price": 30 }]);
        stock(bay, &length);
    });
    let (_, plan) = planned(&bench, &EXACT);
    let bar = &plan["cutting"][0]["lengths"][0];
    // 3000 − 2 × 844 = 1312.
    assert_eq!(bar["left_mm"], 1312.0);
    assert_eq!(bar["left_good_for"], json!(["return", "second"]));
    assert_eq!(plan["spares"][1]["hose_from"], "leftover");
    assert_eq!(plan["spares"][1]["hose_price"], 0.0);
}

#[test]
fn a_hose_that_cannot_be_cut_is_told_and_never_joined() {
    let bench = two_returns(|bay| {
        let length =
            json!([{ "hose": "ptfe-100r14", "dash": 6, "length": 900, "count": 1, "price": 9 }]);
        stock(bay, &length);
    });
    let (status, plan) = planned(&bench, &EXACT);
    assert_eq!(status, Some(1));
    assert_eq!(plan["cutting"][0]["uncut"][0]["why"], "not-enough");
    let bench = two_returns(|bay| {
        let length = json!([{ "hose": "ptfe-100r14", "dash": 6, "length": 839, "price": 9 }]);
        stock(bay, &length);
    });
    let (status, plan) = planned(&bench, &EXACT);
    assert_eq!(status, Some(1));
    let uncut = plan["cutting"][0]["uncut"].as_array().unwrap();
    assert_eq!(uncut.len(), 2);
    assert_eq!((&uncut[0]["why"], &uncut[0]["longest_mm"]), (&json!("too-long"), &json!(839.0)));
    let text = bench.run(&["cutlist", "my.bay.json"]);
    assert!(text.is_quiet(1).contains("NOT CUT: Fuel return, 838 mm"), "{text:?}");
}

#[test]
fn a_price_not_known_is_in_no_sum() {
    let bench = two_returns(|_| {});
    let (_, plan) = planned(&bench, &EXACT);
    // The catalogue has no prices: bought by the metre, 2 × 844 mm.
    assert_eq!(plan["cutting"][0]["by_metre"]["length_mm"], 1688.0);
    assert_eq!(plan["cutting"][0]["by_metre"]["price"], Value::Null);
    assert_eq!(plan["cutting"][0]["unpriced_mm"], 1688.0);
    let lines = plan["shopping"].as_array().unwrap();
    assert!(lines.iter().all(|line| line["price"].is_null()), "{lines:?}");
    assert_eq!(plan["total"], json!({ "known": 0.0, "lines_without_price": lines.len() }));
    // Two hoses: four ends, two clamps, two plugs for their one size.
    let counts: Vec<_> = lines.iter().map(|line| (&line["kind"], &line["count"])).collect();
    let expected =
        [("hose", Value::Null), ("end", 4.into()), ("clamp", 2.into()), ("plug", 2.into())];
    assert_eq!(
        counts,
        expected
            .each_ref()
            .map(|(kind, n)| (Value::from(*kind), n))
            .each_ref()
            .map(|(kind, n)| (kind, *n))
    );
}

#[test]
fn the_csv_holds_the_same_lines_and_sums_as_the_json() {
    let bench = Bench::new();
    for path in all_bays() {
        let file = path.to_str().unwrap();
        let ended = bench.run(&["cutlist", file, "--json", "--csv", "order.csv"]);
        let plan: Value = serde_json::from_str(&ended.out).unwrap();
        let mut rows = records(&bench.text("order.csv"));
        let columns = rows.remove(0);
        let lines = plan["shopping"].as_array().unwrap();
        assert_eq!(rows.len(), lines.len());
        let place = |name: &str| columns.iter().position(|column| column == name).unwrap();
        let (mut sum, mut unknown) = (0.0, 0);
        for (row, line) in rows.iter().zip(lines) {
            assert_eq!(row.len(), columns.len());
            assert_eq!(row[place("kind")], line["kind"].as_str().unwrap());
            assert_eq!(row[place("id")], line["id"].as_str().unwrap());
            let quantity: f64 = row[place("quantity")].parse().unwrap();
            let told = line["count"].as_f64().or(line["metres"].as_f64()).unwrap();
            let per = match row[place("quantity_unit")].as_str() {
                "ft" => 0.3048,
                _ => 1.0,
            };
            let told = told / per;
            if let (Some(each), false) =
                (line["unit_price"].as_f64(), row[place("supply")] == "shelf")
            {
                let shown: f64 = row[place("unit_price")].parse().unwrap();
                assert!((shown - each * per).abs() <= 0.000_501, "{row:?}");
            }
            assert!((quantity - told).abs() <= 0.000_501, "{row:?}");
            match line["price"].as_f64() {
                Some(price) => sum += price,
                None => unknown += 1,
            }
            assert_eq!(row[place("price")].is_empty(), line["price"].is_null());
        }
        assert!((plan["total"]["known"].as_f64().unwrap() - sum).abs() < 0.01);
        assert_eq!(plan["total"]["lines_without_price"], unknown);
    }
}

#[test]
fn every_hose_stands_in_the_plan_and_in_its_text_once() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = hosewright::document::file::load(&path).unwrap();
        for routing in &bay.routings {
            let args = ["cutlist", path.to_str().unwrap(), "--routing", &routing.id];
            let ended = bench.run(&[&args[..], &["--json"]].concat());
            let plan: Value = serde_json::from_str(&ended.out).unwrap();
            let mut told: Vec<&str> = Vec::new();
            for kind in plan["cutting"].as_array().unwrap() {
                let bars = kind["lengths"].as_array().unwrap().iter();
                let from = bars.chain(std::iter::once(&kind["by_metre"]));
                let cut = from.filter_map(|from| from["pieces"].as_array()).flatten();
                let all = cut.chain(kind["uncut"].as_array().unwrap());
                told.extend(all.map(|piece| piece["run"].as_str().unwrap()));
            }
            told.sort_unstable();
            let mut runs: Vec<&str> = routing.runs.iter().map(|run| run.id.as_str()).collect();
            runs.sort_unstable();
            assert_eq!(told, runs);
            let text = bench.run(&args);
            assert_eq!((text.status, text.err.as_str()), (ended.status, ""));
            assert!(text.out.contains("Shopping list") && text.out.contains("One spare"));
        }
    }
}

#[test]
fn calls_at_fault_are_refused() {
    let bench = Bench::with_test_bay();
    for args in [
        &["cutlist"][..],
        &["cutlist", "nowhere.bay.json"],
        &["cutlist", "my.bay.json", "--routing", "no"],
        &["cutlist", "my.bay.json", "--kerf", "much"],
        &["cutlist", "my.bay.json", "--kerf=-1"],
        &["cutlist", "my.bay.json", "--trim", "26 mm"],
        // The bay is in inches.
        &["cutlist", "my.bay.json", "--kerf", "2"],
        &["cutlist", "my.bay.json", "--csv", "my.bay.json"],
        &["cutlist", "my.bay.json", "--csv", "no/such/folder.csv"],
    ] {
        bench.run(args).is_refused();
    }
    assert_eq!(bench.names(), ["my.bay.json"], "nothing was written");
}

#[test]
fn a_clamp_costs_what_the_stock_says() {
    let bench = two_returns(|bay| {
        bay["stock"]["clamps"] = json!([
            { "name": "Cushioned, 5 to 50", "outside": [5, 50], "price": 2.5 },
            { "outside": [5, 50], "price": 4 },
            { "outside": [60, 70], "price": 1 }
        ]);
    });
    let (_, plan) = planned(&bench, &EXACT);
    let lines = plan["shopping"].as_array().unwrap();
    let clamp = lines.iter().find(|line| line["kind"] == "clamp").unwrap();
    // The cheapest that holds the hose; one for each hose.
    assert_eq!(clamp["name"], "Cushioned, 5 to 50");
    assert_eq!((&clamp["unit_price"], &clamp["price"]), (&json!(2.5), &json!(5.0)));
}

#[test]
fn every_hose_once_more_uses_no_leftover_twice() {
    // 3 × 840 + 2 × 4 = 2528 mm: what is left of one length of 2600 mm is good for one more of the
    // two hoses, so that a second one has to be bought for the other.
    let bench = two_returns(|bay| {
        let length = json!([{ "hose": "ptfe-100r14", "dash": 6, "length": 2600, "price": 10 }]);
        stock(bay, &length);
    });
    let (_, plan) = planned(&bench, &EXACT);
    assert_eq!(plan["cutting"][0]["price"], 10.0);
    assert!(plan["spares"].as_array().unwrap().iter().all(|spare| spare["hose_price"] == 0.0));
    assert_eq!(plan["remake_of_all"]["hose"]["known"], 10.0);
    assert_eq!(plan["remake_of_all"]["hose_proven"], true);
    assert_eq!(plan["remake_of_all"]["hoses_not_to_be_had"], 0);
}
