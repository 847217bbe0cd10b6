//! Work is never lost: a few seconds after a change a recovery copy is written, off the window's
//! thread, and a copy that a dead window left is offered.

mod offer;
mod panic;

pub(super) use offer::{Offer, show as show_offer};

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::thread::JoinHandle;
use std::time::{Duration, Instant};

use eframe::egui::Context;
use etcetera::BaseStrategy as _;

use super::work::Work;
use crate::clock;
use crate::document::file::{Keeper, Note};
use crate::model::Bay;

/// From a change to its recovery copy: soon enough to lose little, late enough not to write at
/// every step (our own default).
const DELAY: Duration = Duration::from_secs(3);

/// Keeps the recovery copy of a window.
pub struct Recovery {
    folder: PathBuf,
    delay: Duration,
    watch: Arc<Watch>,
    orders: Option<Sender<Order>>,
    troubles: Receiver<String>,
    worker: Option<JoinHandle<()>>,
    /// What the copy holds, or is about to.
    kept: Option<Arc<Bay>>,
    changed_at: Option<Instant>,
    /// Told once that no copy can be written.
    told: bool,
}

/// What the worker and the hook for panics share.
struct Watch {
    folder: PathBuf,
    keeper: Mutex<Keeper>,
    /// The unsaved bay as it last was, with its file.
    last: Mutex<Option<(Arc<Bay>, Option<PathBuf>)>>,
}

enum Order {
    Keep(Arc<Bay>, Option<PathBuf>),
    /// Takes a dead window's copy away, once this window's own is written.
    Replace(PathBuf),
    Forget,
    /// Answers when all before it is done.
    Tell(Sender<()>),
}

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

impl Recovery {
    /// The user's own.
    pub fn of_the_user() -> Self {
        let data = etcetera::choose_base_strategy().map(|dirs| dirs.data_dir());
        let data = data.unwrap_or_else(|_| std::env::temp_dir());
        Self::stored_in(data.join("hosewright").join("recovery"), DELAY)
    }

    /// With this folder for bays without a file, and this time from a change to its copy.
    pub fn stored_in(folder: PathBuf, delay: Duration) -> Self {
        let watch = Arc::new(Watch {
            folder: folder.clone(),
            keeper: Mutex::new(Keeper::new(folder.clone())),
            last: Mutex::default(),
        });
        let (orders, todo) = channel();
        let (trouble, troubles) = channel();
        let theirs = Arc::clone(&watch);
        let worker = std::thread::spawn(move || work(&theirs, &todo, &trouble));
        Self {
            folder,
            delay,
            watch,
            orders: Some(orders),
            troubles,
            worker: Some(worker),
            kept: None,
            changed_at: None,
            told: false,
        }
    }

    /// Where the copies of bays without a file lie.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Writes the recovery copy and a report when this thread panics, before the program ends.
    pub fn guard_against_panics(&self) {
        panic::guard(&self.watch);
    }

    /// Notes the unsaved bay as it now is, for [`Self::guard_against_panics`].
    pub fn note(&self, bay: &Arc<Bay>, of: Option<PathBuf>) {
        *locked(&self.watch.last) = Some((Arc::clone(bay), of));
    }

    /// Waits until what was ordered is done.
    pub fn settle(&self) {
        let (tell, told) = channel();
        self.order(Order::Tell(tell));
        // Where the worker is gone there is nothing to wait for.
        let _ = told.recv();
    }

    fn order(&self, order: Order) {
        if let Some(orders) = &self.orders {
            // The worker lives as long as this does.
            let _ = orders.send(order);
        }
    }

    fn keep(&mut self, bay: &Arc<Bay>, of: Option<PathBuf>) {
        self.kept = Some(Arc::clone(bay));
        self.changed_at = None;
        self.order(Order::Keep(Arc::clone(bay), of));
    }

    /// Takes the copy away: nothing is unsaved.
    fn forget(&mut self) {
        self.changed_at = None;
        if self.kept.take().is_some() || locked(&self.watch.last).take().is_some() {
            self.order(Order::Forget);
        }
    }
}

impl Drop for Recovery {
    /// Finishes what was ordered and leaves the copy where it is.
    fn drop(&mut self) {
        self.orders = None;
        if let Some(worker) = self.worker.take() {
            // A worker that broke off has nothing left to finish.
            let _ = worker.join();
        }
    }
}

fn work(watch: &Watch, todo: &Receiver<Order>, trouble: &Sender<String>) {
    let mut is_kept = false;
    for order in todo {
        match order {
            Order::Keep(bay, of) => {
                let note = Note::new(of, clock::now().unwrap_or(0));
                let kept = locked(&watch.keeper).keep(&note, &bay);
                is_kept = kept.is_ok();
                // An empty word: it works again.
                let _ = trouble.send(kept.err().map(|error| error.to_string()).unwrap_or_default());
            }
            Order::Replace(old) => {
                if is_kept {
                    // One that stays is offered once more; nothing is lost by that.
                    let _ = std::fs::remove_file(old);
                }
            }
            Order::Forget => {
                is_kept = false;
                locked(&watch.keeper).forget();
            }
            Order::Tell(tell) => {
                let _ = tell.send(());
            }
        }
    }
}

impl Recovery {
    /// Looks after the recovery copy; called before every frame, also of a hidden window.
    pub(super) fn keep_safe(&mut self, work: &mut Work, leaving: bool, ctx: &Context) {
        self.hear(work);
        let Some(document) = work.document.as_ref().filter(|d| d.is_changed()) else {
            self.forget();
            return;
        };
        let bay = document.bay();
        let is_kept = self.kept.as_ref().is_some_and(|kept| Arc::ptr_eq(kept, bay));
        // What is under way is no change yet.
        if leaving || is_kept || document.in_transaction() {
            return;
        }
        let of = document.path().map(|path| std::path::absolute(path).unwrap_or(path.to_owned()));
        self.note(bay, of.clone());
        let changed_at = *self.changed_at.get_or_insert_with(Instant::now);
        let left = self.delay.saturating_sub(changed_at.elapsed());
        if !left.is_zero() {
            ctx.request_repaint_after(left);
        } else if !ctx.input(|input| input.pointer.any_down()) {
            self.keep(bay, of);
        }
    }

    fn hear(&mut self, work: &mut Work) {
        while let Ok(trouble) = self.troubles.try_recv() {
            let is_new = !std::mem::replace(&mut self.told, !trouble.is_empty());
            if is_new && !trouble.is_empty() {
                work.say(format!("No recovery copy is kept: {trouble}"));
            }
        }
    }

    /// The window closes.
    pub(super) fn part(&mut self, work: &Work, leaving: bool) {
        let unsaved = work.document.as_ref().is_some_and(crate::document::Document::is_changed);
        // Unsaved work that nobody gave up stays recoverable.
        if leaving || !unsaved {
            self.forget();
        }
        self.settle();
    }

    /// Shows recovered work: unsaved, one step away from what the file holds.
    pub(super) fn show(&mut self, work: &mut Work, bay: Bay, old: PathBuf) {
        let Some(document) = &mut work.document else { return };
        document.recover(bay);
        let (bay, of) = (Arc::clone(document.bay()), document.path().map(Path::to_owned));
        let of = of.map(|path| std::path::absolute(&path).unwrap_or(path));
        self.note(&bay, of.clone());
        self.keep(&bay, of);
        self.order(Order::Replace(old));
        work.say("The recovered work is not saved yet");
    }
}

#[cfg(test)]
mod tests;
