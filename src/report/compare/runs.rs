//! The differences hose by hose: runs of one id are the same hose, routed another way.

use crate::engine::compare::{Against, Found, RunAnswers, RunFigures};
use crate::report::sheet::dash_text;
use crate::report::verdict::Verdict;
use crate::units::Length;

use super::all::{All, One};
use super::aspect::{SAME_DROP, SAME_MM, SAME_SHARE};
use super::words::{
    NO_FLOW, angle, count, drop, found, gap, length, obstacle_name, per_cent, radius,
};
use crate::report::flow::cold_start_in_words;

/// One hose in all routings.
#[derive(Debug, Clone, PartialEq)]
pub struct RunRow {
    /// Its id.
    pub id: String,
    /// Its name, or its id.
    pub name: String,
    /// One for each routing; none where the routing has no such hose.
    pub cells: Vec<Option<RunCell>>,
    /// What is different, against the first routing that has it; empty where nothing is.
    pub differences: Vec<String>,
}

impl RunRow {
    /// What is different, in words.
    pub fn differences_in_words(&self) -> String {
        if self.differences.is_empty() {
            "the same in all".to_owned()
        } else {
            self.differences.join("; ")
        }
    }
}

/// One hose in one routing.
#[derive(Debug, Clone, PartialEq)]
pub struct RunCell {
    /// Exact; none where it could not be worked out.
    pub cut_mm: Option<f64>,
    /// Rounded up for the bench, with its unit.
    pub cut: String,
    /// Hose and size.
    pub hose: String,
    /// Both ends.
    pub ends: String,
    /// Tightest bend, as installed where that is known.
    pub bend: String,
    /// Nearest obstacle, as installed where that is known.
    pub gap: String,
    /// The most pressure that its flow takes; none where it is not known or no flow is given.
    pub drop_bar: Option<f64>,
    /// The same in words.
    pub drop: String,
    /// What it does at a cold start; empty where that is not asked.
    pub cold: String,
    /// Findings on it.
    pub counts: Verdict,
}

impl RunCell {
    /// How many faults it has, in words; empty where it has none.
    pub fn faults_in_words(&self) -> String {
        match self.counts.faults {
            0 => String::new(),
            fails => count(fails, "fault"),
        }
    }

    /// What it is made of and how near it comes to its limits.
    pub fn details_in_words(&self) -> String {
        let drop = match self.drop.as_str() {
            NO_FLOW => String::new(),
            drop => format!("; pressure drop {drop}{}", self.cold),
        };
        format!("{}; {}; bend {}; obstacle {}{drop}", self.hose, self.ends, self.bend, self.gap)
    }
}

pub(super) fn runs(all: &All<'_>) -> Vec<RunRow> {
    let mut ids: Vec<&str> = Vec::new();
    for run in all.routings.iter().flat_map(|one| &one.figures.runs) {
        if !ids.contains(&run.id.as_str()) {
            ids.push(&run.id);
        }
    }
    ids.into_iter().map(|id| row(all, id)).collect()
}

fn row(all: &All<'_>, id: &str) -> RunRow {
    let found: Vec<Option<&RunFigures>> =
        all.routings.iter().map(|one| one.figures.runs.iter().find(|run| run.id == id)).collect();
    let name = found.iter().flatten().next().map_or(id, |run| run.name.as_str());
    let of_run = |one: &One<'_>| {
        let place = one.routing.runs.iter().position(|run| run.id == id);
        place.map_or_else(Verdict::default, |place| one.answer.verdict_on(place))
    };
    let cells = found.iter().zip(&all.routings);
    RunRow {
        id: id.to_owned(),
        name: name.to_owned(),
        cells: cells.map(|(run, one)| run.map(|run| cell(all, run, of_run(one)))).collect(),
        differences: differences(all, &found, of_run),
    }
}

fn cell(all: &All<'_>, run: &RunFigures, counts: Verdict) -> RunCell {
    let unit = all.unit();
    let [a, b] = run.ends.each_ref().map(|(_, deg)| angle(*deg));
    let answers = run.answers.as_ref();
    let not_known = || super::words::NOT_KNOWN.to_owned();
    RunCell {
        cut_mm: answers.map(|answers| answers.cut_mm),
        cut: answers.map_or_else(not_known, |answers| Length::from_mm(answers.cut_mm).bench(unit)),
        hose: hose(run),
        ends: format!("{a}, {b}"),
        bend: answers.map_or_else(not_known, |answers| {
            found(bend_of(answers).1, "nothing bends", |bend| radius(bend, unit))
        }),
        gap: answers.map_or_else(not_known, |answers| {
            found(gap_of(answers).1, "no obstacle near", |near| {
                format!("{}, {}", gap(near, unit), obstacle_name(all.bay, near))
            })
        }),
        drop_bar: answers.and_then(|answers| answers.drop_bar.known().copied()),
        drop: answers.map_or_else(not_known, |answers| {
            found(&answers.drop_bar, NO_FLOW, |bar| drop(*bar, unit))
        }),
        cold: answers
            .and_then(|answers| answers.cold_start)
            .map_or_else(String::new, |cold| format!(" ({})", cold_start_in_words(&cold, unit))),
        counts,
    }
}

fn hose(run: &RunFigures) -> String {
    format!("{} {}", run.hose, dash_text(run.dash))
}

/// As installed where that is known, else as drawn; whether it is as installed.
fn bend_of(answers: &RunAnswers) -> (bool, &Found<Against>) {
    either(&answers.installed_radius, &answers.radius)
}

fn gap_of(answers: &RunAnswers) -> (bool, &Found<Against>) {
    either(&answers.installed_gap, &answers.gap)
}

fn either<'a>(
    installed: &'a Found<Against>,
    drawn: &'a Found<Against>,
) -> (bool, &'a Found<Against>) {
    if installed.is_not_known() { (false, drawn) } else { (true, installed) }
}

fn differences(
    all: &All<'_>,
    found: &[Option<&RunFigures>],
    of_run: impl Fn(&One<'_>) -> Verdict,
) -> Vec<String> {
    let Some(base) = found.iter().position(Option::is_some) else { return Vec::new() };
    let mut lines = Vec::new();
    let missing: Vec<&One<'_>> = places(found, false).map(|p| &all.routings[p]).collect();
    if !missing.is_empty() {
        let there: Vec<String> =
            places(found, true).map(|place| all.routings[place].short.to_owned()).collect();
        lines.push(format!("only in {}", super::words::joined(&there)));
    }
    let is_of_two = all.routings.len() == 2;
    for place in base + 1..found.len() {
        let (Some(Some(one)), Some(Some(first))) = (found.get(place), found.get(base)) else {
            continue;
        };
        let changes =
            Change { all, first, one, counts: [base, place].map(|at| of_run(&all.routings[at])) }
                .words();
        let named = |change: String| {
            let who =
                if is_of_two { String::new() } else { format!("{}: ", all.routings[place].short) };
            format!("{who}{change}")
        };
        lines.extend(changes.into_iter().map(named));
    }
    lines
}

fn places<'a>(
    found: &'a [Option<&RunFigures>],
    is_there: bool,
) -> impl Iterator<Item = usize> + 'a {
    found
        .iter()
        .enumerate()
        .filter(move |(_, run)| run.is_some() == is_there)
        .map(|(place, _)| place)
}

/// One hose in another routing against the first.
struct Change<'a> {
    all: &'a All<'a>,
    first: &'a RunFigures,
    one: &'a RunFigures,
    counts: [Verdict; 2],
}

impl Change<'_> {
    fn words(&self) -> Vec<String> {
        let mut words = Vec::new();
        words.extend(self.cut());
        if hose(self.first) != hose(self.one) {
            words.push(format!("{} instead of {}", hose(self.one), hose(self.first)));
        }
        for (letter, k) in [("A", 0), ("B", 1)] {
            words.extend(self.end(letter, k));
        }
        if (self.first.slack_pct - self.one.slack_pct).abs() > 1e-9 {
            let (slack, before) = (per_cent(self.one.slack_pct), per_cent(self.first.slack_pct));
            words.push(format!("slack {slack} instead of {before}"));
        }
        if let (Some(first), Some(one)) = (&self.first.answers, &self.one.answers) {
            words.extend(self.bend(first, one));
            words.extend(self.room(first, one));
            words.extend(self.drop(first, one));
        }
        words.extend(self.faults());
        words
    }

    fn cut(&self) -> Option<String> {
        let (Some(first), Some(one)) = (&self.first.answers, &self.one.answers) else {
            let neither = self.first.answers.is_none() && self.one.answers.is_none();
            return (!neither).then(|| "could not be calculated in one of them".to_owned());
        };
        let [one, first] = [one, first]
            .map(|answers| Length::from_mm(answers.cut_mm).up_to_bench_mm(self.all.unit()));
        let over = one - first;
        let word = if over > 0.0 { "longer" } else { "shorter" };
        (over.abs() > SAME_MM).then(|| format!("{} {word}", length(over.abs(), self.all.unit())))
    }

    fn end(&self, letter: &str, k: usize) -> Option<String> {
        let ((name, deg), (first, first_deg)) = (&self.one.ends[k], &self.first.ends[k]);
        let is_named = name != first;
        let words = |name: &str, deg: f64| {
            if is_named { format!("{name} {}", angle(deg)) } else { angle(deg) }
        };
        (is_named || deg != first_deg).then(|| {
            format!("end {letter} {} instead of {}", words(name, *deg), words(first, *first_deg))
        })
    }

    fn bend(&self, first: &RunAnswers, one: &RunAnswers) -> Option<String> {
        let ((installed, first), (also_installed, one)) = (bend_of(first), bend_of(one));
        if installed != also_installed {
            return None;
        }
        let (first, one) = (first.known()?, one.known()?);
        let over = one.share() - first.share();
        let word = if over > 0.0 { "gentler" } else { "tighter" };
        let unit = self.all.unit();
        let (now, before) = (radius(one, unit), radius(first, unit));
        (over.abs() > SAME_SHARE && now != before).then(|| {
            let how = if installed { "as installed" } else { "as drawn" };
            format!("bends {word}: {now} instead of {before}, {how}")
        })
    }

    fn room(&self, first: &RunAnswers, one: &RunAnswers) -> Option<String> {
        let ((installed, first), (also_installed, one)) = (gap_of(first), gap_of(one));
        if installed != also_installed {
            return None;
        }
        let (first, one) = (first.known()?, one.known()?);
        let over = one.spare_mm() - first.spare_mm();
        let word = if over > 0.0 { "more room" } else { "less room" };
        let unit = self.all.unit();
        let words = |near: &Against, named: bool| {
            let obstacle = if named {
                format!(" at {}", obstacle_name(self.all.bay, near))
            } else {
                String::new()
            };
            format!("{}{obstacle}", gap(near, unit))
        };
        let how = if installed { "as installed" } else { "as drawn" };
        let (now, other) = (words(one, true), words(first, first.obstacle != one.obstacle));
        (over.abs() > SAME_MM && gap(one, unit) != gap(first, unit))
            .then(|| format!("{word}: {now} instead of {other}, {how}"))
    }

    fn drop(&self, first: &RunAnswers, one: &RunAnswers) -> Option<String> {
        let (before, now) = (*first.drop_bar.known()?, *one.drop_bar.known()?);
        let words = |bar: f64| drop(bar, self.all.unit());
        let word = if now > before { "more" } else { "less" };
        let is_seen = (now - before).abs() > SAME_DROP * now.max(before);
        (is_seen && words(now) != words(before))
            .then(|| format!("loses {word} pressure: {} instead of {}", words(now), words(before)))
    }

    fn faults(&self) -> Option<String> {
        let [first, one] = &self.counts;
        let told = |n: usize, before: usize, word: &str| {
            (n != before).then(|| format!("{} instead of {before}", count(n, word)))
        };
        let fails = told(one.faults, first.faults, "fault");
        let warns = told(one.warnings, first.warnings, "warning");
        let both: Vec<String> = fails.into_iter().chain(warns).collect();
        (!both.is_empty()).then(|| both.join(", "))
    }
}
