//! Work that takes longer than a moment: done in a thread of its own, shown by one quiet line, and
//! stopped when the user says so.

use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, TryRecvError, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use eframe::egui::{ProgressBar, Role, Ui, WidgetInfo};

use super::theme;

/// Wakes the window, so that it looks at what has come in.
pub type Wake = Arc<dyn Fn() + Send + Sync>;

/// How work that is under way stands.
#[derive(Debug, PartialEq, Eq)]
pub enum Standing<T> {
    /// Not done yet.
    Running,
    /// Done, with this.
    Done(T),
    /// It broke off by a fault of the program.
    Lost,
}

/// Work under way. Dropping it stops it at its next breath.
#[derive(Debug)]
pub struct Job<T> {
    title: String,
    reply: Receiver<T>,
    shared: Arc<Shared>,
}

#[derive(Debug, Default)]
struct Shared {
    stopped: AtomicBool,
    /// Thousandths done, plus one; zero while that is not known.
    done: AtomicU32,
    word: Mutex<String>,
}

/// The worker's end: it tells how far it is, and asks whether to go on.
#[derive(Clone)]
pub struct Progress {
    shared: Arc<Shared>,
    wake: Wake,
}

impl Progress {
    /// What is being done just now, and the share that is done (0 to 1), where that is known.
    pub fn tell(&self, word: impl Into<String>, done: Option<f32>) {
        *self.shared.word.lock().unwrap_or_else(PoisonError::into_inner) = word.into();
        let thousandths = done.map_or(0, |share| (share.clamp(0.0, 1.0) * 1000.0) as u32 + 1);
        self.shared.done.store(thousandths, Ordering::Relaxed);
        (self.wake)();
    }

    /// Whether to leave off: nobody wants the result any more.
    pub fn is_stopped(&self) -> bool {
        self.shared.stopped.load(Ordering::Relaxed)
    }
}

impl<T: Send + 'static> Job<T> {
    /// Begins the work.
    pub fn start(
        title: impl Into<String>,
        wake: &Wake,
        work: impl FnOnce(&Progress) -> T + Send + 'static,
    ) -> Self {
        let (send, reply) = channel();
        let shared = Arc::new(Shared::default());
        let progress = Progress { shared: Arc::clone(&shared), wake: Arc::clone(wake) };
        std::thread::spawn(move || {
            // The waker lives in a guard, so that the window looks up after a fault too.
            let last = WakeAtEnd(Arc::clone(&progress.wake));
            let result = work(&progress);
            // Where the job was dropped nobody wants the result.
            let _ = send.send(result);
            drop(send);
            drop(last);
        });
        Self { title: title.into(), reply, shared }
    }

    /// What it is.
    pub fn title(&self) -> &str {
        &self.title
    }

    /// How it stands.
    pub fn look(&self) -> Standing<T> {
        match self.reply.try_recv() {
            Ok(result) => Standing::Done(result),
            Err(TryRecvError::Empty) => Standing::Running,
            Err(TryRecvError::Disconnected) => Standing::Lost,
        }
    }

    /// Asks the worker to leave off at its next breath; what it has by then is still its result.
    pub fn stop(&self) {
        self.shared.stopped.store(true, Ordering::Relaxed);
    }

    /// How it stands after waiting a little: what is done in a moment needs no progress line.
    pub fn wait(&self, patience: Duration) -> Standing<T> {
        match self.reply.recv_timeout(patience) {
            Ok(result) => Standing::Done(result),
            Err(RecvTimeoutError::Timeout) => Standing::Running,
            Err(RecvTimeoutError::Disconnected) => Standing::Lost,
        }
    }
}

impl<T> Job<T> {
    /// The word of the worker and the share done.
    pub fn progress(&self) -> (String, Option<f32>) {
        let word = self.shared.word.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let done = self.shared.done.load(Ordering::Relaxed);
        (word, done.checked_sub(1).map(|thousandths| thousandths as f32 / 1000.0))
    }

    /// Shows the title, the progress and a button to stop; says whether that was pressed.
    pub fn line(&self, ui: &mut Ui) -> bool {
        let colours = theme::palette(ui);
        let (word, done) = self.progress();
        ui.label(&self.title);
        let stopped = ui.horizontal(|ui| {
            let bar = ProgressBar::new(done.unwrap_or(0.0)).desired_width(260.0);
            let bar = ui.add(bar.desired_height(8.0).fill(colours.accent));
            bar.widget_info(|| WidgetInfo::labeled(Role::ProgressIndicator, true, &self.title));
            let stop = ui.button("Stop");
            stop.on_hover_text("Stop; everything stays as it is (Esc)").clicked()
        });
        ui.colored_label(colours.soft, word);
        stopped.inner
    }
}

impl<T> Drop for Job<T> {
    fn drop(&mut self) {
        self.shared.stopped.store(true, Ordering::Relaxed);
    }
}

struct WakeAtEnd(Wake);

impl Drop for WakeAtEnd {
    fn drop(&mut self) {
        (self.0)();
    }
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::AtomicUsize;

    use super::*;

    const LONG: Duration = Duration::from_secs(20);

    fn counting() -> (Wake, Arc<AtomicUsize>) {
        let count = Arc::new(AtomicUsize::new(0));
        let counter = Arc::clone(&count);
        (
            Arc::new(move || {
                counter.fetch_add(1, Ordering::SeqCst);
            }),
            count,
        )
    }

    #[test]
    fn the_result_comes_back_and_the_window_is_woken() {
        let (wake, count) = counting();
        let job = Job::start("adding", &wake, |progress| {
            progress.tell("half way", Some(0.5));
            2 + 2
        });
        assert_eq!(job.wait(LONG), Standing::Done(4));
        assert_eq!(job.progress(), ("half way".to_owned(), Some(0.5)));
        assert!(count.load(Ordering::SeqCst) >= 1);
    }

    #[test]
    fn dropping_a_job_stops_it() {
        let (wake, _) = counting();
        let (send, stopped) = channel();
        let job = Job::start("for ever", &wake, move |progress| {
            while !progress.is_stopped() {
                std::thread::yield_now();
            }
            send.send(()).unwrap();
        });
        assert_eq!(job.look(), Standing::Running);
        drop(job);
        stopped.recv_timeout(LONG).unwrap();
    }

    #[test]
    fn work_that_breaks_off_is_told() {
        let (wake, _) = counting();
        let job: Job<()> =
            Job::start("breaking", &wake, |_| std::panic::resume_unwind(Box::new(0)));
        assert_eq!(job.wait(LONG), Standing::Lost);
    }
}
