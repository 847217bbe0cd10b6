//! The parts library as something that is changed: every change is saved at once or refused, and can be
//! put back.

use std::path::{Path, PathBuf};

use super::said::said;
use crate::document::file::{LoadError, SaveError, Stamp, faults_of_parts, load_parts, save_parts};
use crate::document::fresh_id;
use crate::model::{Stock, StockEntry, StockList};

/// One change of a library.
#[derive(Debug, Clone, PartialEq)]
pub enum PartsChange {
    /// A part that is not in it yet.
    Add(StockEntry),
    /// A part in the place of the one that it was.
    Set {
        /// As it was.
        from: StockEntry,
        /// As it is to be.
        to: StockEntry,
    },
    /// Takes a part out.
    Delete(StockEntry),
    /// Parts of a table: those that are there already are replaced.
    Import(Box<Stock>),
}

/// Why a library was not changed. It is then as it was.
#[derive(Debug, thiserror::Error)]
pub enum PartsError {
    /// What would come of it is impossible or there already: line by line, in the words of the window.
    #[error("{}", .0.join("\n"))]
    Refused(Vec<String>),
    /// The part has gone.
    #[error("\u{201c}{0}\u{201d} is no longer in the parts library")]
    Gone(String),
    /// The file cannot be read, so that it must not be written over.
    #[error("{}", .0.join("\n"))]
    NotRead(Vec<String>),
    /// The user has no folder for settings.
    #[error("there is no folder for settings, so the parts library has no place")]
    NoPlace,
    /// The disk.
    #[error(transparent)]
    Save(#[from] SaveError),
}

impl PartsChange {
    /// Its name.
    pub fn label(&self) -> String {
        match self {
            Self::Add(part) => format!("Add {} {}", part.list().one(), part.name()),
            Self::Set { to, .. } => format!("Change {} {}", to.list().one(), to.name()),
            Self::Delete(part) => format!("Delete {} {}", part.list().one(), part.name()),
            Self::Import(_) => "Import parts".to_owned(),
        }
    }

    fn carry_out(&self, stock: &mut Stock) -> Result<(), PartsError> {
        let gone = |part: &StockEntry| PartsError::Gone(part.name().to_owned());
        match self {
            Self::Add(part) => add(part.clone(), stock),
            Self::Set { from, to } => {
                if from.counterpart(stock).is_none() {
                    return Err(gone(from));
                }
                to.clone().put_in_place_of(from, stock);
                if let (StockEntry::Hose(from), StockEntry::Hose(to)) = (from, to) {
                    for length in stock.lengths.iter_mut().filter(|length| length.hose == from.id) {
                        length.hose.clone_from(&to.id);
                    }
                }
            }
            Self::Delete(part) => {
                if !part.take_out(stock) {
                    return Err(gone(part));
                }
            }
            Self::Import(table) => {
                for (list, ..) in StockList::ALL {
                    for part in StockEntry::all_of(table, list) {
                        part.put(stock);
                    }
                }
            }
        }
        Ok(())
    }
}

/// At the end of its list, whatever is there: a second of the same id is refused, not replaced.
fn add(part: StockEntry, stock: &mut Stock) {
    match part {
        StockEntry::Hose(mut hose) => {
            let taken = |id: &str| stock.hoses.iter().any(|other| other.id == id);
            if hose.id.is_empty() {
                hose.id = id_of(&hose.name, taken);
            }
            stock.hoses.push(*hose);
        }
        StockEntry::End(mut end) => {
            let taken = |id: &str| stock.ends.iter().any(|other| other.id == id);
            if end.id.is_empty() {
                end.id = id_of(&end.name, taken);
            }
            stock.ends.push(*end);
        }
        StockEntry::Clamp(clamp) => stock.clamps.push(clamp),
        StockEntry::Length(length) => stock.lengths.push(length),
    }
}

/// An id made of a name: its words joined by hyphens.
fn id_of(name: &str, taken: impl Fn(&str) -> bool) -> String {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let id = words.map(str::to_lowercase).collect::<Vec<_>>().join("-");
    fresh_id(if id.is_empty() { "part" } else { &id }, taken)
}

/// As many steps can be put back.
const MOST_STEPS: usize = 50;

/// A library and its file.
#[derive(Debug, Default)]
pub struct Library {
    path: Option<PathBuf>,
    stock: Stock,
    stamp: Option<Stamp>,
    /// Why the file could not be read.
    faults: Vec<String>,
    /// What was done, and the library before it; the last last.
    history: Vec<(String, Stock)>,
}

impl Library {
    /// The library of this file; one without a file is empty and cannot be changed.
    pub fn at(path: Option<PathBuf>) -> Self {
        let mut library = Self { path, ..Self::default() };
        library.read();
        library
    }

    /// Its file.
    pub fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    /// What is in it; nothing where its file cannot be read.
    pub fn stock(&self) -> &Stock {
        &self.stock
    }

    /// Why its file could not be read; empty where it could.
    pub fn faults(&self) -> &[String] {
        &self.faults
    }

    /// The last change, which can be put back.
    pub fn last_change(&self) -> Option<&str> {
        self.history.last().map(|(label, _)| label.as_str())
    }

    /// Reads the file again where another has changed it since.
    pub fn refresh(&mut self) {
        let now = self.path.as_deref().and_then(Stamp::of_file);
        if now != self.stamp || !self.faults.is_empty() {
            self.read();
        }
    }

    fn read(&mut self) {
        let Some(path) = &self.path else { return };
        self.history.clear();
        match load_parts(path) {
            Ok(parts) => (self.stock, self.stamp, self.faults) = (parts.stock, parts.stamp, vec![]),
            Err(error) => {
                (self.stock, self.stamp) = (Stock::default(), Stamp::of_file(path));
                self.faults = lines_of(&error);
            }
        }
    }

    /// What a change would be refused for, in the words of the window; nothing is changed.
    pub fn faults_of(&self, change: &PartsChange) -> Vec<String> {
        match self.tried(change) {
            Ok(_) => Vec::new(),
            Err(error) => error.to_string().lines().map(str::to_owned).collect(),
        }
    }

    fn tried(&self, change: &PartsChange) -> Result<Stock, PartsError> {
        let mut stock = self.stock.clone();
        change.carry_out(&mut stock)?;
        match faults_of_parts(&stock) {
            faults if faults.is_empty() => Ok(stock),
            faults => {
                Err(PartsError::Refused(faults.iter().map(|fault| said(fault, &stock)).collect()))
            }
        }
    }

    /// Carries out one change and saves it.
    ///
    /// # Errors
    /// [`PartsError`]; the library and its file are then as they were.
    pub fn change(&mut self, change: &PartsChange) -> Result<(), PartsError> {
        self.refresh();
        if !self.faults.is_empty() {
            return Err(PartsError::NotRead(self.faults.clone()));
        }
        let stock = self.tried(change)?;
        if stock == self.stock {
            return Ok(());
        }
        let before = self.keep(stock)?;
        self.history.push((change.label(), before));
        if self.history.len() > MOST_STEPS {
            self.history.remove(0);
        }
        Ok(())
    }

    /// Takes the last change back; tells which.
    ///
    /// # Errors
    /// [`PartsError`]; the library and its file are then as they were.
    pub fn put_back(&mut self) -> Result<Option<String>, PartsError> {
        // What another has changed since is not to be lost.
        self.refresh();
        let Some((label, before)) = self.history.last().cloned() else { return Ok(None) };
        self.keep(before)?;
        self.history.pop();
        Ok(Some(label))
    }

    /// Saves; gives what was there before.
    fn keep(&mut self, stock: Stock) -> Result<Stock, PartsError> {
        let path = self.path.as_deref().ok_or(PartsError::NoPlace)?;
        self.stamp = Some(save_parts(path, &stock)?);
        Ok(std::mem::replace(&mut self.stock, stock))
    }
}

fn lines_of(error: &LoadError) -> Vec<String> {
    error.to_string().lines().map(str::to_owned).collect()
}
