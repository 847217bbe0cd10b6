//! The parts library in the window: what is shown of it, the part that is being typed, and its tables.

use std::path::{Path, PathBuf};

use super::actions::PartsAct;
use super::told::Notice;
use super::work::Work;
use crate::document::file::{self, MAX_FILE_BYTES};
use crate::document::parts::{Library, PartsChange, PartsError, parts_from_csv, parts_to_csv};
use crate::model::{
    ClampSize, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, ShelfLength, Stock,
    StockEntry, StockList,
};
use crate::units::shown_name;

/// The library and what is shown of it.
#[derive(Debug, Default)]
pub(super) struct Parts {
    pub(super) is_open: bool,
    pub(super) library: Library,
    pub(super) list: StockList,
    pub(super) search: String,
    pub(super) draft: Option<Draft>,
}

/// A part that is being typed; the library has it when it is saved.
#[derive(Debug)]
pub(super) struct Draft {
    /// As the library has it; none of a new one.
    pub(super) from: Option<StockEntry>,
    pub(super) part: StockEntry,
    /// Why it cannot be saved yet, in the words of its fields.
    pub(super) faults: Vec<String>,
}

impl Draft {
    fn change(&self) -> PartsChange {
        match self.from.clone() {
            Some(from) => PartsChange::Set { from, to: self.part.clone() },
            None => PartsChange::Add(self.part.clone()),
        }
    }

    pub(super) fn is_changed(&self) -> bool {
        self.from.as_ref() != Some(&self.part)
    }
}

impl Parts {
    pub(super) fn at(path: Option<PathBuf>) -> Self {
        Self { library: Library::at(path), ..Self::default() }
    }

    pub(super) fn open(&mut self) {
        self.is_open = true;
        self.library.refresh();
    }

    /// Says whether the panel is wanted.
    pub(super) fn act(&mut self, work: &mut Work, act: PartsAct) -> bool {
        match act {
            PartsAct::List(list) => self.list = list,
            PartsAct::Search(typed) => self.search = typed,
            PartsAct::New => self.begin(None, new_part(self.list, self.library.stock())),
            PartsAct::Copy(part) => self.begin(None, copy_of(part)),
            PartsAct::Open(part) => {
                // What is half typed is not thrown away for another part.
                if self.draft.as_ref().is_some_and(Draft::is_changed) {
                    work.say("Save or cancel this part first");
                } else {
                    self.list = part.list();
                    self.begin(Some(part.clone()), part);
                }
                return true;
            }
            PartsAct::Typed(part) => {
                let from = self.draft.take().and_then(|draft| draft.from);
                self.begin(from, part);
            }
            PartsAct::Save => {
                if let Some(change) = self.draft.as_ref().map(Draft::change)
                    && self.change(work, &change)
                {
                    self.draft = None;
                }
            }
            PartsAct::Cancel => self.draft = None,
            PartsAct::Delete(part) => {
                if self.change(work, &PartsChange::Delete(part)) {
                    self.draft = None;
                }
            }
            PartsAct::PutBack => match self.library.put_back() {
                Ok(Some(label)) => work.say(format!("Put back: {label}")),
                Ok(None) => {}
                Err(error) => trouble(work, &error),
            },
            PartsAct::FromBay(part) => self.take_from_bay(work, part),
            PartsAct::ReadAgain => self.library.refresh(),
        }
        false
    }

    fn begin(&mut self, from: Option<StockEntry>, part: StockEntry) {
        let mut draft = Draft { from, part, faults: Vec::new() };
        draft.faults = self.library.faults_of(&draft.change());
        self.draft = Some(draft);
    }

    fn take_from_bay(&mut self, work: &mut Work, part: StockEntry) {
        let change = match part.counterpart(self.library.stock()) {
            Some(from) => PartsChange::Set { from, to: part.clone() },
            None => PartsChange::Add(part.clone()),
        };
        if self.change(work, &change) && self.draft.is_some() {
            self.begin(Some(part.clone()), part);
        }
    }

    /// Says whether it was done.
    fn change(&mut self, work: &mut Work, change: &PartsChange) -> bool {
        match self.library.change(change) {
            Ok(()) => {
                work.say(format!("{}: saved", change.label()));
                true
            }
            Err(error) => {
                trouble(work, &error);
                false
            }
        }
    }

    /// Takes a table over, all of it or nothing.
    pub(super) fn import(&mut self, work: &mut Work, path: &Path) {
        const NOT: &str = "Nothing was imported";
        self.library.refresh();
        let bytes = match file::contents(path, MAX_FILE_BYTES) {
            Ok(Some(bytes)) => bytes,
            Ok(None) => return work.trouble(NOT, vec!["There is no such file".to_owned()]),
            Err(error) => return work.trouble(NOT, vec![error.to_string()]),
        };
        match parts_from_csv(&bytes, self.library.stock()) {
            Ok(table) => {
                let count = counted(&table);
                if self.change(work, &PartsChange::Import(Box::new(table))) {
                    work.say(format!("Imported {count} from {}", shown_name(path)));
                    self.open();
                }
            }
            Err(faults) => work.trouble(NOT, faults.0.iter().map(ToString::to_string).collect()),
        }
    }

    /// Writes the library as a table.
    pub(super) fn export(&self, work: &mut Work, path: &Path) {
        let made = parts_to_csv(self.library.stock()).map_err(|error| error.to_string());
        let written = made.and_then(|bytes| {
            file::replace(path, |out| out.write_all(&bytes)).map_err(|error| error.to_string())
        });
        match written {
            Ok(()) => {
                let text = format!("Wrote {}", shown_name(path));
                work.notice = Some(Notice::new(text, Some(path.to_owned())));
            }
            Err(error) => work.trouble("The table was not written", vec![error]),
        }
    }
}

fn trouble(work: &mut Work, error: &PartsError) {
    let lines = error.to_string().lines().map(str::to_owned).collect();
    work.trouble("The parts library was not changed", lines);
}

/// "2 hoses, 1 clamp".
fn counted(stock: &Stock) -> String {
    let count =
        |(list, one, many): (StockList, &str, &str)| match StockEntry::all_of(stock, list).len() {
            0 => None,
            1 => Some(format!("1 {one}")),
            count => Some(format!("{count} {}", many.to_lowercase())),
        };
    let counts: Vec<String> = StockList::ALL.into_iter().filter_map(count).collect();
    if counts.is_empty() { "nothing".to_owned() } else { counts.join(", ") }
}

fn copy_of(mut part: StockEntry) -> StockEntry {
    match &mut part {
        StockEntry::Hose(hose) => {
            hose.id.clear();
            hose.name.push_str(" copy");
        }
        StockEntry::End(end) => {
            end.id.clear();
            end.name.push_str(" copy");
        }
        StockEntry::Clamp(clamp) => clamp.name.push_str(" copy"),
        StockEntry::Length(_) => {}
    }
    part
}

/// A part with nothing typed yet: 0 stands for what is not known.
fn new_part(list: StockList, library: &Stock) -> StockEntry {
    let source = file::stock_source();
    match list {
        StockList::Hoses => StockEntry::Hose(Box::new(HoseKind {
            id: String::new(),
            name: String::new(),
            maker: None,
            construction: Construction::PtfeBraid,
            liner: None,
            conductive_liner: None,
            temperature_c: None,
            length_change_pct: None,
            bend_to_centre: None,
            sizes: vec![HoseSize { dash: 6, ..HoseSize::default() }],
            sources: HoseSources::all(source),
            extra: Vec::new(),
        })),
        StockList::Ends => StockEntry::End(Box::new(EndKind {
            id: String::new(),
            name: String::new(),
            maker: None,
            for_construction: None,
            attachment: None,
            sizes: vec![EndSize { dash: 6, ..EndSize::default() }],
            source_straight: source.clone(),
            source_elbow: source.clone(),
            source_socket: source,
            extra: Vec::new(),
        })),
        StockList::Clamps => StockEntry::Clamp(ClampSize {
            name: String::new(),
            outside_mm: [0.0; 2],
            price: None,
            extra: Vec::new(),
        }),
        StockList::Lengths => StockEntry::Length(ShelfLength {
            hose: library.hoses.first().map(|hose| hose.id.clone()).unwrap_or_default(),
            dash: library.hoses.first().and_then(|hose| hose.sizes.first()).map_or(6, |s| s.dash),
            length_mm: 0.0,
            count: None,
            price: None,
            extra: Vec::new(),
        }),
    }
}
