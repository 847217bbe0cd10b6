//! The parts library: its file, its tables for spreadsheets, what is refused, and putting back.

use std::fs;
use std::path::{Path, PathBuf};

use hosewright::document::file::{load_parts, read_parts, save_parts, write_parts};
use hosewright::document::parts::{
    Library, PartsChange, PartsError, differences, parts_from_csv, parts_to_csv,
};
use hosewright::document::{Command, Document};
use hosewright::model::{HoseKind, Stock, StockEntry, StockList};
use hosewright::units::LengthUnit;
use proptest::prelude::*;

use crate::bays::any_bay;

/// One hose in two sizes, an end in three angles, a clamp, two lengths. Invented.
const LIBRARY: &str = r#"{"format": "hosewright-parts", "version": 1,
  "hoses": [{"id": "quill", "name": "Quill", "maker": "Shed", "construction": "ptfe-braid",
    "conductive_liner": true, "temperature_c": [-54, 204], "sizes": [
    {"dash": 6, "bore": 7.9, "outside": 12.0, "bend_radius": 102, "max_pressure_bar": 103, "price_per_m": 11},
    {"dash": 8, "bore": 10.3, "outside": 14.5, "bend_radius": 132}]}],
  "ends": [{"id": "quill-end", "name": "Quill end", "for_construction": "ptfe-braid", "sizes": [
    {"dash": 6, "angle_deg": 0, "along": 21, "across": 0, "socket": 24},
    {"dash": 6, "angle_deg": 90, "along": 21.5, "across": 25, "socket": 24, "measured": true, "measured_on": "2026-11-19"},
    {"dash": 6, "angle_deg": 180, "along": -4, "across": 38, "socket": 24}]}],
  "lengths": [{"hose": "quill", "dash": 6, "length": 3000, "price": 33}, {"hose": "quill", "dash": 6, "length": 640, "count": 1}],
  "clamps": [{"name": "P-clip", "outside": [11, 13], "price": 1.5}]}"#;

fn library() -> Stock {
    read_parts(LIBRARY.as_bytes()).unwrap()
}

fn quill() -> HoseKind {
    library().hoses[0].clone()
}

fn hose(hose: HoseKind) -> StockEntry {
    StockEntry::Hose(Box::new(hose))
}

/// A folder with the library in it.
fn on_disk() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("deep").join("parts.json");
    save_parts(&path, &library()).unwrap();
    (folder, path)
}

fn faults(text: &str) -> Vec<String> {
    let error = read_parts(text.as_bytes()).unwrap_err();
    error.to_string().lines().map(str::to_owned).collect()
}

/// The stock of any bay, with all that no part can be put right.
fn any_library() -> impl Strategy<Value = Stock> {
    any_bay().prop_map(|bay| {
        let mut stock = bay.stock;
        let blank = |text: &mut Option<String>| {
            if text.as_ref().is_some_and(|text| text.trim().is_empty()) {
                *text = None;
            }
        };
        for (place, hose) in stock.hoses.iter_mut().enumerate() {
            hose.name = format!("{}{place}", hose.name);
            blank(&mut hose.maker);
            blank(&mut hose.liner);
            for size in &mut hose.sizes {
                size.bore_mm = size.bore_mm.filter(|bore| Some(*bore) < size.outside_mm);
                size.max_pressure_bar = size.max_pressure_bar.filter(|bar| *bar > 0.0);
                size.proof_bar = size.max_pressure_bar.map(|bar| bar * 1.5);
                size.burst_bar = size.max_pressure_bar.map(|bar| bar * 4.0);
                size.mass_kg_per_m = size.mass_kg_per_m.filter(|mass| *mass > 0.0);
            }
        }
        for (place, end) in stock.ends.iter_mut().enumerate() {
            end.name = format!("{}{place}", end.name);
            blank(&mut end.maker);
            for size in &mut end.sizes {
                if size.angle_deg == 0.0 {
                    size.across_mm = 0.0;
                }
                size.along_mm += 1.0;
                size.socket_mm += 1.0;
                size.measured_on = size.measured_on.trim().to_owned();
                size.max_pressure_bar = size.max_pressure_bar.filter(|bar| *bar > 0.0);
                size.mass_kg = size.mass_kg.filter(|mass| *mass > 0.0);
            }
        }
        stock.ends.retain(|end| !end.sizes.is_empty());
        for (place, length) in stock.lengths.iter_mut().enumerate() {
            length.length_mm += 10_000.0 * place as f64;
        }
        for (place, clamp) in stock.clamps.iter_mut().enumerate() {
            clamp.name = format!("{}{place}", clamp.name);
        }
        stock
    })
}

/// Without the keys that no column is for.
fn without_unknown_keys(mut stock: Stock) -> Stock {
    stock.extra.clear();
    for hose in &mut stock.hoses {
        hose.extra.clear();
        hose.sizes.iter_mut().for_each(|size| size.extra.clear());
    }
    for end in &mut stock.ends {
        end.extra.clear();
        end.sizes.iter_mut().for_each(|size| size.extra.clear());
    }
    stock.lengths.iter_mut().for_each(|length| length.extra.clear());
    stock.clamps.iter_mut().for_each(|clamp| clamp.extra.clear());
    stock
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_library_comes_back_from_its_file(stock in any_library()) {
        let text = write_parts(&stock).unwrap();
        let again = read_parts(text.as_bytes()).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert_eq!(&again, &stock);
        prop_assert_eq!(write_parts(&again).unwrap(), text);
    }

    #[test]
    fn a_library_comes_back_from_its_table(stock in any_library()) {
        let stock = without_unknown_keys(stock);
        let table = parts_to_csv(&stock).unwrap();
        let again = parts_from_csv(&table, &Stock::default())
            .map_err(|e| TestCaseError::fail(format!("{e}\n{}", String::from_utf8_lossy(&table))))?;
        prop_assert_eq!(again, stock);
    }
}

#[test]
fn a_file_that_is_not_there_is_an_empty_library() {
    let folder = tempfile::tempdir().unwrap();
    let parts = load_parts(&folder.path().join("parts.json")).unwrap();
    assert_eq!((parts.stock, parts.stamp), (Stock::default(), None));
}

#[test]
fn a_file_of_something_else_is_refused_with_its_place() {
    let bay = LIBRARY.replace("hosewright-parts", "hosewright-bay");
    assert_eq!(faults(&bay), ["/format: found \"hosewright-bay\", expected \"hosewright-parts\""]);
    let newer = LIBRARY.replace("\"version\": 1", "\"version\": 2");
    assert!(faults(&newer)[0].contains("get a newer Hosewright"));
    let wrong = LIBRARY
        .replace("\"outside\": 12.0", "\"outside\": 7")
        .replace("\"bend_radius\": 132", "\"bend_radius\": -1");
    assert_eq!(faults(&wrong).len(), 1, "what a key may not be is told first");
    let wrong = LIBRARY.replace("\"outside\": 12.0", "\"outside\": 7");
    let said = "/hoses/0/sizes/0/bore: found 7.9, expected a bore smaller than the OD";
    assert_eq!(faults(&wrong), [said]);
    let lost = LIBRARY.replace(
        "\"hose\": \"quill\", \"dash\": 6, \"length\": 640",
        "\"hose\": \"gone\", \"dash\": 6, \"length\": 640",
    );
    assert!(
        faults(&lost)[0].contains("of the catalogue or of the parts library (\"quill\")"),
        "{lost}"
    );
}

#[test]
fn duplicates_are_refused_in_the_words_of_the_field() {
    let (_folder, path) = on_disk();
    let mut library = Library::at(Some(path.clone()));
    let before = fs::read(&path).unwrap();
    let same_id = HoseKind { name: "Other".into(), ..quill() };
    let same_name = HoseKind { id: "other".into(), name: "quill ".into(), ..quill() };
    let mut impossible = HoseKind { id: "third".into(), name: "Third".into(), ..quill() };
    impossible.sizes[1].bore_mm = Some(20.0);
    impossible.sizes[0].outside_mm = None;
    for (added, said) in [
        (same_id, "Id: expected an id that no other in this list has"),
        (same_name, "Name: expected a name that no other of this manufacturer has"),
        (impossible, "\u{2212}6, OD: missing"),
    ] {
        let refused = library.change(&PartsChange::Add(hose(added))).unwrap_err();
        assert!(matches!(&refused, PartsError::Refused(_)), "{refused:?}");
        assert_eq!(refused.to_string().lines().next(), Some(said));
    }
    assert_eq!(fs::read(&path).unwrap(), before, "nothing was written");
    let other_maker = HoseKind { id: String::new(), maker: Some("Barn".into()), ..quill() };
    library.change(&PartsChange::Add(hose(other_maker))).unwrap();
    assert_eq!(library.stock().hoses[1].id, "quill-2", "an id was made of the name");
}

#[test]
fn every_change_is_saved_at_once_and_put_back() {
    let (_folder, path) = on_disk();
    let mut library = Library::at(Some(path.clone()));
    let on_disk = |path: &Path| load_parts(path).unwrap().stock;
    let first = library.stock().clone();
    let mut renamed = quill();
    renamed.id = "feather".into();
    renamed.sizes[0].price_per_m = Some(12.5);
    library.change(&PartsChange::Set { from: hose(quill()), to: hose(renamed.clone()) }).unwrap();
    assert_eq!(&on_disk(&path), library.stock());
    assert!(library.stock().lengths.iter().all(|length| length.hose == "feather"));
    library.change(&PartsChange::Delete(hose(renamed))).unwrap();
    assert_eq!(library.stock().lengths, [], "lengths of a hose that has gone go along");
    assert_eq!(library.last_change(), Some("Delete hose Quill"));
    assert_eq!(library.put_back().unwrap().as_deref(), Some("Delete hose Quill"));
    assert_eq!(library.put_back().unwrap().as_deref(), Some("Change hose Quill"));
    assert_eq!(library.put_back().unwrap(), None);
    assert_eq!((library.stock(), &on_disk(&path)), (&first, &first));
}

#[test]
fn what_another_window_has_changed_is_kept() {
    let (_folder, path) = on_disk();
    let [mut one, mut other] = [(); 2].map(|()| Library::at(Some(path.clone())));
    let clamp = StockEntry::all_of(one.stock(), StockList::Clamps).remove(0);
    one.change(&PartsChange::Delete(clamp)).unwrap();
    let end = StockEntry::end(other.stock(), "quill-end").unwrap();
    other.change(&PartsChange::Delete(end)).unwrap();
    one.refresh();
    assert_eq!((one.stock().clamps.len(), one.stock().ends.len()), (0, 0));
    assert_eq!(one.last_change(), None, "what another did is not put back");
}

#[test]
fn a_damaged_library_is_never_written_over() {
    let (_folder, path) = on_disk();
    fs::write(&path, "{ not json").unwrap();
    let mut library = Library::at(Some(path.clone()));
    assert!(library.faults()[0].starts_with("cannot open "), "{:?}", library.faults());
    let refused = library.change(&PartsChange::Add(hose(quill()))).unwrap_err();
    assert!(matches!(refused, PartsError::NotRead(_)));
    assert_eq!(fs::read_to_string(&path).unwrap(), "{ not json");
    fs::write(&path, LIBRARY).unwrap();
    library.refresh();
    assert_eq!((library.faults().len(), library.stock().hoses.len()), (0, 1));
}

#[test]
fn a_table_takes_inches_psi_and_fahrenheit_and_replaces_what_is_there() {
    let table = "kind,id,name,manufacturer,dash,od_in,bend_radius_in,rating_psi,greatest_temperature_f,least_temperature_f\r\n\
        hose,quill,Quill,Shed,6,1/2,4,1000,400,-65\r\nhose,quill,,,8,0.57 in,132 mm,69 bar,,\r\n";
    let found = parts_from_csv(table.as_bytes(), &library()).unwrap();
    let hose = &found.hoses[0];
    assert_eq!(hose.name, "Quill");
    assert_eq!((hose.sizes[0].outside_mm, hose.sizes[0].bend_radius_mm), (Some(12.7), 101.6));
    assert!((hose.sizes[1].outside_mm.unwrap() - 14.478).abs() < 1e-9);
    assert_eq!(hose.sizes[1].bend_radius_mm, 132.0);
    assert!((hose.sizes[0].max_pressure_bar.unwrap() - 68.947_57).abs() < 1e-4);
    assert_eq!(hose.sizes[1].max_pressure_bar, Some(69.0));
    assert!((hose.temperature_c.unwrap()[1] - 204.444).abs() < 1e-2);
    let (_folder, path) = on_disk();
    let mut library = Library::at(Some(path));
    library.change(&PartsChange::Import(Box::new(found))).unwrap();
    assert_eq!(library.stock().hoses.len(), 1);
    assert_eq!(library.stock().hoses[0].sizes[0].outside_mm, Some(12.7));
    assert_eq!(library.stock().ends.len(), 1, "what is not in the table stays");
}

#[test]
fn a_table_with_faults_names_line_and_column_and_what_is_expected() {
    let head = "kind,id,name,dash,angle_deg,along_mm,across_mm,socket_mm,od_mm,bore_mm,bend_radius_mm,hose,length_mm\n";
    for (lines, said) in [
        (
            "hose,a,A,6,,,,,wide,,100,,\n",
            "line 2, column od_mm: found \u{201c}wide\u{201d}, expected a number in mm (",
        ),
        (
            "hose,a,A,6,,,,,,,100,,\n",
            "line 2, column od_mm: found nothing, expected a number above 0 (millimetres)",
        ),
        (
            "hose,a,A,6,,,,,12,13,100,,\n",
            "line 2, column bore_mm: found 13, expected a bore smaller than the OD",
        ),
        (
            "hose,a,A,6,,,,,12,,100,,\nhose,a,A,6,,,,,12,,100,,\n",
            "line 3, column dash: found 6 again",
        ),
        (
            "hose,a,A,6,,,,,12,,100,,\nhose,a,B,8,,,,,14,,100,,\n",
            "line 3, column name: found \u{201c}B\u{201d}, expected the same as in line 2, or nothing",
        ),
        (
            "end,a,A,6,200,1,1,1,,,,,\n",
            "line 2, column angle_deg: found 200, expected a number from 0 to 180 (degrees)",
        ),
        ("end,a,A,6,0,21,,24,,,,,\n", "line 2, column across_mm: found nothing, expected"),
        (
            "end,a,A,6,0,21,0,24,12,,,,\n",
            "line 2, column od_mm: found \u{201c}12\u{201d}, expected nothing: no figure of this kind (end)",
        ),
        (
            "length,,,6,,,,,,,,gone,600\n",
            "line 2, column hose: found \"gone\", expected the id of a hose",
        ),
        (
            "length,,,9,,,,,,,,quill,600\n",
            "line 2, column dash: found 9, expected a size of hose \"quill\"",
        ),
        (
            "nut,a,A,6,,,,,,,,,\n",
            "line 2, column kind: found \u{201c}nut\u{201d}, expected hose, end, clamp or length",
        ),
        ("hose,,A,6,,,,,12,,100,,\n", "line 2, column id: found nothing, expected an id"),
        ("hose,other,Quill,6,,,,,12,,100,,\n", ""),
    ] {
        let found = parts_from_csv(format!("{head}{lines}").as_bytes(), &library());
        if said.is_empty() {
            assert!(found.is_ok(), "Quill of no manufacturer is another one");
            continue;
        }
        let error = found.unwrap_err().to_string();
        assert!(error.starts_with(said), "{error}");
    }
    // Lines of a spreadsheet end in CR LF, and may be empty.
    let text = format!("{head}\nhose,a,A,6,,,,,wide,,100,,\n").replace('\n', "\r\n");
    let faults = parts_from_csv(text.as_bytes(), &library()).unwrap_err().0;
    assert_eq!(faults.iter().map(|fault| fault.line).collect::<Vec<_>>(), [3]);
    let of =
        |text: &str| parts_from_csv(text.as_bytes(), &Stock::default()).unwrap_err().to_string();
    assert!(of("").starts_with("line 1: found an empty file"));
    assert!(of("id,name\nhose,a\n").starts_with("line 1, column kind: found no such column"));
    assert!(
        of("kind,colour\n").starts_with("line 1, column colour: found a column that is not known")
    );
    assert!(of("kind;id;id\n").starts_with("line 1, column id: found the column again"));
    let taken = "kind,id,name,manufacturer,dash,od_mm,bend_radius_mm\nhose,b,QUILL,shed,6,12,100\n";
    let error = parts_from_csv(taken.as_bytes(), &library()).unwrap_err().to_string();
    assert!(error.contains("line 2, column name") && error.contains("in the library"), "{error}");
    let two =
        "kind,id,name,dash,od_mm,bend_radius_mm\nhose,a,A,6,12,100\nhose,b,B,6,x,100\nclamp,,,,,\n";
    assert_eq!(
        parts_from_csv(two.as_bytes(), &library()).unwrap_err().0.len(),
        2,
        "clamp has no id and no OD"
    );
}

#[test]
fn differences_are_told_in_the_units_of_the_bay() {
    let mut other = quill();
    other.sizes[0].outside_mm = Some(12.7);
    other.sizes[0].price_per_m = Some(12.0);
    other.sizes[1].dash = 10;
    other.bend_to_centre = Some(true);
    let said =
        differences((&hose(quill()), "here"), (&hose(other), "in the bay"), LengthUnit::Inch);
    assert_eq!(
        said,
        [
            "Bend radius to: not given here, centre in the bay",
            "\u{2212}6, OD: 12 mm here, 1/2 in in the bay",
            "\u{2212}6, Price: 3.35 here, 3.66 in the bay",
            "\u{2212}8 only here",
            "\u{2212}10 only in the bay",
        ]
    );
    assert!(differences((&hose(quill()), "a"), (&hose(quill()), "b"), LengthUnit::Mm).is_empty());
}

#[test]
fn a_part_goes_into_the_bay_as_one_step() {
    let bay =
        hosewright::document::file::load(Path::new("demo_projects/trials-car.bay.json")).unwrap();
    let before = bay.stock.clone();
    let mut document = Document::new(bay, None);
    for (list, ..) in StockList::ALL {
        let part = StockEntry::all_of(&library(), list).remove(0);
        if list != StockList::Lengths {
            assert_eq!(part.counterpart(&document.bay().stock), None);
        }
        document.apply(&Command::PutInStock(part.clone())).unwrap();
        assert_eq!(part.counterpart(&document.bay().stock), Some(part));
    }
    assert_eq!(document.history().depth(), 4);
    assert_eq!(document.undo(), Some("Put part into the bay"));
    for _ in 0..3 {
        document.undo();
    }
    assert_eq!(document.bay().stock, before);
}
