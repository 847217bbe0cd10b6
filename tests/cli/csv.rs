//! The sheet as CSV, read back by the letter of RFC 4180.

use hosewright::document::file::load;
use hosewright::engine::solve_whole;
use hosewright::units::Length;

use crate::bench::{Bench, all_bays};

/// The records of a CSV file by RFC 4180 §2: fields apart by commas, records ended by CR LF, quoted
/// fields with doubled quotes. Anything else stops the test.
pub(crate) fn records(text: &str) -> Vec<Vec<String>> {
    let mut chars = text.chars().peekable();
    let (mut records, mut record) = (Vec::new(), Vec::new());
    while chars.peek().is_some() {
        let mut field = String::new();
        if chars.next_if_eq(&'"').is_some() {
            loop {
                match chars.next().expect("a quoted field ends") {
                    '"' if chars.next_if_eq(&'"').is_some() => field.push('"'),
                    '"' => break,
                    c => field.push(c),
                }
            }
        } else {
            while let Some(c) = chars.next_if(|c| !matches!(c, ',' | '\r')) {
                assert!(!matches!(c, '"' | '\n'), "{c:?} outside quotes after {field}");
                field.push(c);
            }
        }
        record.push(field);
        match chars.next().expect("the last record ends too") {
            ',' => {}
            '\r' => {
                assert_eq!(chars.next(), Some('\n'));
                records.push(std::mem::take(&mut record));
            }
            c => panic!("{c:?} after a field"),
        }
    }
    assert!(record.is_empty(), "{record:?} is not ended");
    records
}

/// The hoses of a written file: column name to field.
struct Read {
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Read {
    fn of(bench: &Bench, bay: &str, routing: &str) -> Self {
        let ended = bench.run(&["sheet", bay, "--routing", routing, "--out", "a.csv"]);
        assert_eq!((ended.status, ended.out.as_str()), (Some(0), ""), "{ended:?}");
        let mut rows = records(&bench.text("a.csv"));
        let columns = rows.remove(0);
        for row in &rows {
            assert_eq!(row.len(), columns.len(), "{row:?}");
        }
        Self { columns, rows }
    }

    fn field(&self, row: usize, column: &str) -> &str {
        let place = self.columns.iter().position(|name| name == column).expect(column);
        &self.rows[row][place]
    }

    fn number(&self, row: usize, column: &str) -> f64 {
        self.field(row, column).parse().expect(column)
    }
}

#[test]
fn one_line_a_hose_with_the_engines_figures() {
    let bench = Bench::new();
    for path in all_bays() {
        let bay = load(&path).unwrap();
        for routing in &bay.routings {
            let read = Read::of(&bench, path.to_str().unwrap(), &routing.id);
            let solution = solve_whole(&bay, routing);
            assert_eq!(read.rows.len(), routing.runs.len());
            for (i, run) in routing.runs.iter().enumerate() {
                let solved = solution.run(i).unwrap();
                let cut = Length::from_mm(solved.cut_length_mm);
                assert_eq!(read.field(i, "routing"), routing.id);
                assert_eq!(read.field(i, "hose_id"), run.id);
                assert_eq!(read.field(i, "name"), run.name);
                assert_eq!(read.field(i, "dash"), run.dash.to_string());
                assert_eq!(read.field(i, "cut_bench_mm"), cut.bench_mm().to_string());
                assert_eq!(read.field(i, "cut_bench_in"), format!("{} in", cut.bench_inch()));
                for (column, exact) in [
                    ("cut_length_exact_mm", solved.cut_length_mm),
                    ("centre_line_mm", solved.centreline_mm),
                    ("slack_mm", solved.slack_mm),
                    ("overall_mm", solved.overall_mm),
                    ("set_back_a_mm", solved.from.set_back_mm),
                    ("set_back_b_mm", solved.to.set_back_mm),
                    ("radius_limit_mm", solved.radius_limit_mm),
                ] {
                    // Written to a thousandth.
                    let off = read.number(i, column) - exact;
                    assert!(off.abs() <= 0.000_501, "{column} of {}: off by {off}", run.id);
                }
                let clearance = solution.clearance.runs[i].shown();
                let obstacle = clearance.map_or("", |near| &bay.obstacles[near.obstacle].id);
                assert_eq!(read.field(i, "clearance_obstacle"), obstacle);
                if let Some(near) = clearance {
                    assert!((read.number(i, "clearance_gap_mm") - near.gap_mm).abs() <= 0.000_501);
                    let min_clearance = read.number(i, "clearance_min_clearance_mm");
                    assert!((min_clearance - near.min_clearance_mm).abs() <= 0.000_501);
                    assert!((read.number(i, "clearance_at_mm") - near.at_mm).abs() <= 0.000_501);
                }
                match solved.min_radius_mm {
                    None => assert_eq!(read.field(i, "min_radius_mm"), ""),
                    Some(mm) => assert!((read.number(i, "min_radius_mm") - mm).abs() <= 0.000_501),
                }
            }
        }
    }
}

/// Names that a careless writer or reader trips over.
const NAMES: [&str; 3] = ["=1+1", "<b>&\", then 'more'", "-2+3 \u{2033}Öl"];

#[test]
fn words_come_back_as_they_are_but_never_as_a_formula() {
    let bench = Bench::with_changed_bay(|bay| {
        for (i, name) in NAMES.iter().enumerate() {
            bay["routings"][0]["runs"][i]["name"] = (*name).into();
        }
    });
    let read = Read::of(&bench, "my.bay.json", "over");
    assert_eq!(read.field(0, "name"), "'=1+1");
    assert_eq!(read.field(1, "name"), NAMES[1]);
    assert_eq!(read.field(2, "name"), format!("'{}", NAMES[2]));
    // The port that the test bay names `=tank`.
    assert_eq!(read.field(1, "from_port"), "'=tank");
    for field in read.rows.iter().flatten() {
        let is_number = field.parse::<f64>().is_ok();
        assert!(is_number || !field.starts_with(['=', '+', '-', '@', '\t', '\r']), "{field:?}");
    }
}
