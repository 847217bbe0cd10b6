//! From a table for spreadsheets to parts, or to all that is wrong with it, each with line and column.
//!
//! The lines are put together as a file of parts, so that what a bay file refuses is refused here too;
//! the place in that file leads back to the line and the column.

use std::collections::BTreeMap;

use csv::StringRecord;
use serde_json::{Map, Value, json};

use super::cell::{quoted, read};
use super::columns::{self, Column, LISTS};
use super::table_fault::{Lines, TableFault, TableFaults};
use crate::document::file::{Fault, PARTS_FORMAT, ReadError, read_parts_beside};
use crate::model::{Stock, StockList};
use crate::units::Measure;

/// A column of the table at hand.
struct Head {
    column: &'static Column,
    measure: Measure,
    /// As it is called there.
    name: String,
}

/// What is gathered line by line.
#[derive(Default)]
struct Gathered {
    lists: BTreeMap<StockList, Vec<Map<String, Value>>>,
    /// The names of the columns, in the order of the header.
    names: Vec<String>,
    /// The line of what stands at a place of the file.
    lines: BTreeMap<String, u64>,
    faults: Vec<TableFault>,
}

/// Parts of a table, to be put beside those of a library.
///
/// # Errors
/// [`TableFaults`], all that could be told at once.
pub fn parts_from_csv(bytes: &[u8], library: &Stock) -> Result<Stock, TableFaults> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(bytes))
        .flexible(true)
        .has_headers(false)
        .from_reader(bytes);
    let mut gathered = Gathered::default();
    let mut heads: Option<Vec<String>> = None;
    let mut lines = Lines::in_bytes(bytes);
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = lines.of(error.position());
                let expected = "text in UTF-8, cells apart by commas";
                gathered.fault(line, "", "what cannot be read".to_owned(), expected);
                break;
            }
        };
        let line = lines.of(record.position());
        match &heads {
            None => {
                gathered.names = gathered.heads(&record);
                heads = Some(gathered.names.clone());
            }
            Some(_) if record.iter().all(|cell| cell.trim().is_empty()) => {}
            Some(heads) => gathered.line(line, heads, &record),
        }
    }
    if heads.is_none() {
        gathered.fault(1, "", "an empty file".to_owned(), "a header line with the columns");
    }
    // With a header that is wrong every line would be.
    if gathered.faults.iter().all(|fault| fault.line > 1) {
        let (stock, faults) = gathered.read(library);
        if let (Some(stock), true) = (stock, faults.is_empty() && gathered.faults.is_empty()) {
            return Ok(stock);
        }
        // A cell that could not be read is not missed a second time.
        let told: Vec<u64> = gathered.faults.iter().map(|fault| fault.line).collect();
        gathered.faults.extend(faults.into_iter().filter(|fault| !told.contains(&fault.line)));
    }
    gathered.faults.sort_by_key(|fault| fault.line);
    Err(TableFaults(gathered.faults))
}

/// Spreadsheets of some countries put semicolons where others put commas.
fn delimiter(bytes: &[u8]) -> u8 {
    let header = bytes.split(|byte| *byte == b'\n').next().unwrap_or_default();
    let count = |sign: u8| header.split(|byte| *byte == sign).count();
    if count(b';') > count(b',') { b';' } else { b',' }
}

/// The columns of a list that a name of the header stands for.
fn head(list: StockList, name: &str) -> Option<Head> {
    let find = |column: &'static Column| {
        let measures = column.sort.measures().iter();
        let fits = |(ending, _): &&(&str, Measure)| name.strip_suffix(ending) == Some(column.name);
        measures.into_iter().find(fits).map(|(_, measure)| Head {
            column,
            measure: *measure,
            name: name.to_owned(),
        })
    };
    columns::of(list).iter().find_map(find)
}

impl Gathered {
    fn fault(&mut self, line: u64, column: &str, found: String, expected: &str) {
        let (column, expected) = (column.to_owned(), expected.to_owned());
        self.faults.push(TableFault { line, column, found, expected });
    }

    /// The names of the columns, each known and there once.
    fn heads(&mut self, record: &StringRecord) -> Vec<String> {
        let names: Vec<String> = record.iter().map(|name| name.trim().to_lowercase()).collect();
        for (place, name) in names.iter().enumerate() {
            let is_known =
                name == "kind" || LISTS.iter().any(|(list, ..)| head(*list, name).is_some());
            if !name.is_empty() && !is_known {
                let expected = "a column of an exported table (docs/reference/parts-file.md)";
                self.fault(1, name, "a column that is not known".to_owned(), expected);
            } else if !name.is_empty() && names[..place].contains(name) {
                self.fault(1, name, "the column again".to_owned(), "each column once");
            }
        }
        if !names.iter().any(|name| name == "kind") {
            let expected = "a column \u{201c}kind\u{201d}: hose, end, clamp or length";
            self.fault(1, "kind", "no such column".to_owned(), expected);
        }
        names
    }

    fn line(&mut self, line: u64, names: &[String], record: &StringRecord) {
        let cells = |name: &str| {
            let place = names.iter().position(|other| other == name);
            place.and_then(|place| record.get(place)).unwrap_or_default()
        };
        let kind = cells("kind").trim().to_lowercase();
        let Some((list, key, _)) = LISTS.iter().find(|(_, _, word)| *word == kind) else {
            return self.fault(line, "kind", quoted(cells("kind")), "hose, end, clamp or length");
        };
        let (mut part, mut size) = (Map::new(), Map::new());
        for (name, cell) in names.iter().zip(record.iter()) {
            if cell.trim().is_empty() || name == "kind" || name.is_empty() {
                continue;
            }
            let Some(head) = head(*list, name) else {
                self.fault(
                    line,
                    name,
                    quoted(cell),
                    &format!("nothing: no figure of this kind ({kind})"),
                );
                continue;
            };
            match read(cell, head.column.sort, head.measure) {
                Ok(value) => {
                    let members = if head.column.of_size { &mut size } else { &mut part };
                    put(members, head.column, value);
                }
                Err(expected) => self.fault(line, &head.name, quoted(cell), &expected),
            }
        }
        if let Some(name) = record.iter().skip(names.len()).find(|cell| !cell.trim().is_empty()) {
            self.fault(
                line,
                "",
                quoted(name),
                "no more cells than columns; text with commas in quotes",
            );
        }
        self.take(line, (*list, key), part, size);
    }

    /// A line is a size of a part that stood before, or a part of its own.
    fn take(
        &mut self,
        line: u64,
        (list, key): (StockList, &str),
        part: Map<String, Value>,
        size: Map<String, Value>,
    ) {
        let parts = self.lists.entry(list).or_default();
        let has_sizes = columns::of(list).iter().any(|column| column.of_size);
        let before = parts.iter().position(|other| {
            has_sizes && part.contains_key("id") && other.get("id") == part.get("id")
        });
        let place = before.unwrap_or(parts.len());
        let mut differing = Vec::new();
        if before.is_some() {
            for (member, value) in
                part.iter().filter(|(key, value)| parts[place].get(*key) != Some(*value))
            {
                differing.push((member.clone(), value.clone()));
            }
        } else {
            self.lines.insert(format!("/{key}/{place}"), line);
            parts.push(part);
        }
        if has_sizes && !size.is_empty() {
            let sizes = parts[place].entry("sizes").or_insert_with(|| json!([]));
            if let Value::Array(sizes) = sizes {
                self.lines.insert(format!("/{key}/{place}/sizes/{}", sizes.len()), line);
                sizes.push(Value::Object(size));
            }
        }
        for (member, value) in differing {
            let first = self.lines.get(&format!("/{key}/{place}")).copied().unwrap_or_default();
            let column = columns::of(list).iter().find(|c| !c.of_size && c.key == member);
            let column = column.map_or(member.as_str(), |column| column.name);
            let expected = format!("the same as in line {first}, or nothing");
            self.fault(line, column, quoted(&super::cell::written(&value)), &expected);
        }
    }

    /// The parts, as a file of them would be read.
    fn read(&self, library: &Stock) -> (Option<Stock>, Vec<TableFault>) {
        let mut file = json!({ "format": PARTS_FORMAT, "version": 1 });
        for (list, key, _) in LISTS {
            if let Some(parts) = self.lists.get(&list) {
                file[key] = parts.iter().cloned().map(Value::Object).collect();
            }
        }
        match read_parts_beside(file.to_string().as_bytes(), library) {
            Ok(stock) => {
                let faults = self.names_taken(&stock, library);
                (Some(stock), faults)
            }
            Err(ReadError::Faults(faults)) => {
                (None, faults.0.iter().map(|fault| self.in_table(fault)).collect())
            }
            Err(other) => {
                let (found, column) = (other.to_string(), String::new());
                let expected = "parts that can be read".to_owned();
                (None, vec![TableFault { line: 1, column, found, expected }])
            }
        }
    }

    /// Parts that have the name of another one of the library.
    fn names_taken(&self, stock: &Stock, library: &Stock) -> Vec<TableFault> {
        let plain = |name: &str, maker: &Option<String>| {
            (name.trim().to_lowercase(), maker.as_deref().unwrap_or_default().trim().to_lowercase())
        };
        let fault = |key: &str, place: usize, name: &str| TableFault {
            line: self.lines.get(&format!("/{key}/{place}")).copied().unwrap_or(1),
            column: "name".to_owned(),
            found: quoted(name),
            expected: "a name that no other of this manufacturer has in the library".to_owned(),
        };
        let hoses = stock.hoses.iter().enumerate().filter(|(_, hose)| {
            library.hoses.iter().any(|other| {
                other.id != hose.id
                    && plain(&other.name, &other.maker) == plain(&hose.name, &hose.maker)
            })
        });
        let ends = stock.ends.iter().enumerate().filter(|(_, end)| {
            library.ends.iter().any(|other| {
                other.id != end.id
                    && plain(&other.name, &other.maker) == plain(&end.name, &end.maker)
            })
        });
        hoses
            .map(|(place, hose)| fault("hoses", place, &hose.name))
            .chain(ends.map(|(place, end)| fault("ends", place, &end.name)))
            .collect()
    }

    /// A fault of the file, told by line and column.
    fn in_table(&self, fault: &Fault) -> TableFault {
        let mut way = fault.pointer.as_str();
        let line = loop {
            if let Some(line) = self.lines.get(way) {
                break *line;
            }
            match way.rfind('/') {
                Some(up) => way = &way[..up],
                None => break 1,
            }
        };
        let mut steps = fault.pointer.split('/').skip(1);
        let list = steps.next().and_then(|key| LISTS.iter().find(|(_, other, _)| *other == key));
        let rest = fault.pointer.strip_prefix(way).unwrap_or_default();
        let mut rest = rest.split('/').skip(1);
        let (key, place) = (rest.next().unwrap_or_default(), rest.next());
        let place = place.and_then(|place| place.parse::<usize>().ok());
        let of_size = way.contains("/sizes/");
        let columns = list.map_or(&[][..], |(list, ..)| columns::of(*list));
        let found = columns.iter().filter(|c| c.of_size == of_size && c.key == key);
        let found = found.into_iter().find(|c| place.is_none() || c.place == place);
        let column = match (found, key) {
            (Some(column), _) => {
                // As the header has it, which may be in inches.
                let is_named = |name: &&String| {
                    let head = list.and_then(|(list, ..)| head(*list, name));
                    head.is_some_and(|head| head.column.name == column.name)
                };
                let usual = || format!("{}{}", column.name, column.sort.measures()[0].0);
                self.names.iter().find(is_named).cloned().unwrap_or_else(usual)
            }
            (None, "sizes") => "dash".to_owned(),
            (None, key) => key.to_owned(),
        };
        let TableFault { found, expected, .. } = plain(fault);
        TableFault { line, column, found, expected }
    }
}

fn plain(fault: &Fault) -> TableFault {
    TableFault {
        line: 1,
        column: String::new(),
        found: fault.found.clone(),
        expected: fault.expected.clone(),
    }
}

/// Puts a value under its key; of least and greatest both are needed.
fn put(members: &mut Map<String, Value>, column: &Column, value: Value) {
    match column.place {
        None => {
            members.insert(column.key.to_owned(), value);
        }
        Some(place) => {
            let pair = members.entry(column.key).or_insert_with(|| json!([null, null]));
            pair[place] = value;
        }
    }
}
