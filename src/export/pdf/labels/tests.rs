use std::sync::Arc;

use super::*;
use crate::document::file::{MeshSource, read};
use crate::engine::solve_routing;
use crate::model::Mesh;
use crate::report::answer::Answer;
use crate::report::sheet::SheetInfo;

struct NoMeshes;

impl MeshSource for NoMeshes {
    fn mesh(&self, _file: &str) -> Result<Mesh, String> {
        Err("none".to_owned())
    }
}

/// A bay with one hose; every text in it is `text`, and nothing in it is real.
fn sheet(text: &str, unit: &str) -> Sheet {
    let bay = serde_json::json!({
        "format": "hosewright-bay", "version": 1, "title": text, "show_units": unit,
        "ports": [{"id": "a", "name": text, "at": [0, 0, 0], "toward": [1, 0, 0]},
                  {"id": "b", "name": text, "at": [700, 0, 0], "toward": [-1, 0, 0]}],
        "stock": {"hoses": [{"id": "h", "name": text, "construction": "ptfe-braid", "sizes": [
            {"dash": 6, "bore": 8, "outside": 12, "bend_radius": 90, "max_pressure_bar": 103.4}]}]},
        "routings": [{"id": "o", "name": text, "runs": [{"id": "r", "name": text, "hose": "h", "dash": 6,
            "from": {"port": "a", "along": 20, "across": 0, "socket": 24},
            "to": {"port": "b", "along": 20, "across": 0, "socket": 24},
            "bench": {"lot": text, "made_on": text, "replace_by": text},
            "service": {"fluid": text, "pressure_bar": 34.5}}]}]});
    let bay = read(bay.to_string().as_bytes(), &NoMeshes).unwrap();
    let solution = solve_routing(&bay, &bay.routings[0]);
    let answer = Answer::new(Arc::new(bay), 0, solution, Vec::new()).unwrap();
    Sheet::new(&answer, SheetInfo::default())
}

fn set(sheet: &Sheet, kind: LabelKind) -> Block {
    let faces = Faces::new().unwrap();
    let room = Paper::Letter.size_mm().y - 2.0 * MARGIN;
    label(&faces, sheet, &sheet.hoses[0], kind, room)
}

/// The words of a label, line ends taken for gaps.
fn words(block: &Block) -> String {
    let texts = block.items.iter().filter_map(|item| match item {
        Item::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ").split_whitespace().collect::<Vec<_>>().join(" ")
}

const LONG: [&str; 4] = [
    "Feed",
    "Lower return of the second oil cooler to the gearbox, left",
    "WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW",
    "a fluid of the builder’s own, mixed by the litre and by hand; see the book on the shelf above the bench",
];

#[test]
fn labels_never_cut_a_pressure_off() {
    for text in LONG {
        for (unit, pressures) in [
            ("inch", ["1500 psi", "1001 psi", "500 psi"]),
            ("mm", ["103.4 bar", "69 bar", "34.5 bar"]),
        ] {
            let block = set(&sheet(text, unit), LabelKind::Finished);
            let said = words(&block);
            for pressure in pressures {
                assert!(said.contains(pressure), "{pressure}: {said}");
            }
            assert!(!said.contains('…'), "{said}");
        }
    }
}

#[test]
fn nothing_on_a_label_stands_outside_it_or_over_another_line() {
    let faces = Faces::new().unwrap();
    for text in LONG.into_iter().chain([&*"wide ".repeat(200), &*"W".repeat(2000)]) {
        for kind in LabelKind::ALL {
            let block = set(&sheet(text, "inch"), kind);
            let inside = DVec2::new(WIDTH, block.height);
            let mut feet: Vec<(f64, f64)> = Vec::new();
            for item in &block.items {
                let mut bounds = item.bounds();
                if let Item::Text { at, text, size_mm, is_bold, .. } = item {
                    // As wide as the face really is.
                    bounds.max.x = at.x + faces.of(*is_bold).width_mm(text, *size_mm);
                }
                assert!(bounds.min.min_element() > 0.0, "{item:?}");
                assert!(bounds.max.x < inside.x && bounds.max.y < inside.y, "{item:?}");
                if let Item::Text { at, size_mm, .. } = item {
                    feet.push((at.y, *size_mm));
                }
            }
            feet.sort_by(|a, b| a.0.total_cmp(&b.0));
            for pair in feet.windows(2) {
                let apart = pair[1].0 - pair[0].0;
                assert!(apart < 1e-9 || apart > 0.6 * pair[1].1, "{pair:?}");
            }
        }
    }
}

#[test]
fn a_finished_hose_says_what_it_is_and_a_bench_tag_what_to_cut() {
    let sheet = sheet("Feed", "inch");
    let finished = words(&set(&sheet, LabelKind::Finished));
    for wanted in [
        "seat to seat",
        "28 7/8 in",
        "rated to",
        "proof",
        "lot Feed",
        "made on Feed",
        "replace by Feed",
    ] {
        assert!(finished.contains(wanted), "{wanted}: {finished}");
    }
    let hose = &sheet.hoses[0];
    let tag = words(&set(&sheet, LabelKind::Bench));
    assert!(tag.contains(&hose.cut.main) && tag.contains("when cutting ±"), "{tag}");
    assert!(tag.contains("cut by") && !tag.contains("seat to seat"), "{tag}");
    assert!(!finished.contains(&hose.cut.main), "{finished}");
}

#[test]
fn rows_go_on_on_the_next_page() {
    let mut sheet = sheet("Feed", "mm");
    sheet.hoses = vec![sheet.hoses[0].clone(); 40];
    let faces = Faces::new().unwrap();
    let pages = paged(&faces, &sheet, LabelKind::Finished, Paper::A4);
    let labels: usize = pages.iter().flatten().map(Vec::len).sum();
    assert_eq!((labels, pages.len()), (40, 4));
    for page in &pages {
        let high: f64 = page.iter().map(|row| height_of(row)).sum();
        assert!(high <= Paper::A4.size_mm().y - 2.0 * MARGIN);
    }
}
