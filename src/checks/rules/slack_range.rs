//! `slack-range`: slack within 5 to 8 %, and the bow it makes of a straight free length.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::FreeSpan;
use crate::engine::motion::RunMotion;
use crate::geom::{BOW_SLACK_MAX, in_line_bow};
use crate::model::tolerance::cut_length_tolerance_mm;
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "slack-range",
    severity: Severity::Warn,
    title: "Slack out of range",
    what: "The slack in per cent of the drawn centre line, against 5 to 8 %. Only a note where \
           the purpose is met: with less, the hose still reaches in every position, shortened by \
           pressure and cut short by its tolerance; with more, the installed shape meets its \
           minimum radius and clearances. Where only the drawn route is known, also each \
           straight free length that its slack bows below the minimum radius (exact elastica \
           held in line; above 15 % the radius is below that at 15 %).",
    source: Source::fixed(
        Mark::Published,
        "5 to 8 %: FAA AMT Handbook – General p. 7-19, NAVEDTRA 14105 p. 5-11",
    ),
};

/// Least and greatest slack, per cent ([`RULE`]).
const RANGE_PCT: [f64; 2] = [5.0, 8.0];
/// A per cent figure within this of the range counts as in it: more places are not shown.
const EPS_PCT: f64 = 0.005;
/// A span whose chord is at least this share of its length counts as straight.
const STRAIGHT_SHARE: f64 = 0.999;

/// The bow that the slack makes of one straight span.
struct SpanBow<'a> {
    span: &'a FreeSpan,
    slack_pct: f64,
    /// Its tightest radius; where `is_bound`, it is tighter still.
    radius_mm: f64,
    height_mm: f64,
    is_bound: bool,
}

/// One finding for the run's slack; where the installed shape is not known also one for each straight
/// span that bows too tight.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let mut found: Vec<_> = out_of_range(run).into_iter().collect();
    if run.lay.is_none() {
        let limit_mm = run.solved.radius_limit_mm;
        let bows = run.solved.spans.iter().filter_map(bow_of);
        let tight = bows.filter(|bow| bow.radius_mm < limit_mm - EPS_MM);
        found.extend(tight.map(|bow| below_minimum(run, &bow)));
    }
    found
}

/// None for a span that is not straight or has no slack.
fn bow_of(span: &FreeSpan) -> Option<SpanBow<'_>> {
    if span.chord_mm < STRAIGHT_SHARE * span.length_mm() {
        return None;
    }
    let share = span.slack_mm / span.length_mm();
    let bow = in_line_bow(span.chord_mm, share.min(BOW_SLACK_MAX))?;
    Some(SpanBow {
        span,
        slack_pct: 100.0 * share,
        radius_mm: bow.radius,
        height_mm: bow.height,
        is_bound: share > BOW_SLACK_MAX,
    })
}

fn out_of_range(run: &RunContext<'_>) -> Option<Finding> {
    let [least, most] = RANGE_PCT;
    let slack = run.solved.slack_pct();
    let under = slack < least - EPS_PCT;
    if !under && slack <= most + EPS_PCT {
        return None;
    }
    let (severity, effect, hint) = if under { of_little(run) } else { of_much(run) };
    let word = if under { "under" } else { "over" };
    Some(Finding {
        severity,
        value: Some(slack),
        limit: Some(if under { least } else { most }),
        unit: Unit::Percent,
        message: format!("Slack {}, {word} the usual 5 to 8 %{effect}", Figures::percent(slack)),
        hint,
        ..run.finding_at(&RULE, run.solved.centreline_mm / 2.0)
    })
}

/// Less than usual: whether the hose reaches all the same, cut short and shortened, wherever things move.
fn of_little(run: &RunContext<'_>) -> (Severity, String, String) {
    let figures = run.figures();
    let tolerance_mm = cut_length_tolerance_mm(run.solved.cut_length_mm);
    let spare_mm = least_spare_mm(run);
    let tolerance = figures.length(tolerance_mm);
    if run.lay.is_some() && spare_mm >= tolerance_mm {
        let effect = format!(
            "; reaches in every position checked, under pressure, with {} to spare",
            figures.length(spare_mm)
        );
        return (Severity::Note, effect, how_short(run, tolerance_mm));
    }
    let lacks = tolerance_mm - spare_mm;
    let hint = if lacks > 0.0 {
        let more = figures.length_up(lacks);
        format!("Give {more} more slack: the hose then reaches even if cut {tolerance} short")
    } else {
        "Give 5 to 8 % slack".to_owned()
    };
    (Severity::Warn, String::new(), hint)
}

/// No shorter than the drawn route: what is not slack is not there to be missed.
fn how_short(run: &RunContext<'_>, tolerance_mm: f64) -> String {
    let step_mm = run.bay.show_units.bench_step_mm();
    let short_mm = (tolerance_mm.min(run.solved.slack_mm) / step_mm + 1e-9).floor() * step_mm;
    if short_mm < step_mm {
        return "Do not cut it short: it has no slack to give".to_owned();
    }
    format!("Cut it at most {} short", run.figures().length(short_mm))
}

/// The least that the hose has over the straight distance between two held points, in any position, mm.
fn least_spare_mm(run: &RunContext<'_>) -> f64 {
    let drawn = run.solved.spans.iter().map(|span| span.spare_mm(run.solved.hose.shortening_pct));
    let moved = run.motion.and_then(|(motion, _)| motion.least_reach());
    drawn.chain(moved.map(|(_, reach)| reach.spare_mm)).fold(f64::INFINITY, f64::min)
}

/// More than usual: whether the hose bows out without harm.
fn of_much(run: &RunContext<'_>) -> (Severity, String, String) {
    let is_tight = |radius: Option<f64>| {
        radius.is_some_and(|radius| radius < run.solved.radius_limit_mm - EPS_MM)
    };
    let is_near = |spare: Option<f64>| spare.is_some_and(|spare| spare < -EPS_MM);
    let holds = run.lay.is_some_and(|lay| {
        let motion = run.motion.map(|(motion, _)| motion);
        lay.installed.is_whole()
            && !is_tight(lay.installed.min_radius_mm())
            && lay.clearance.too_near.is_empty()
            && !is_tight(motion.and_then(RunMotion::tightest).map(|(_, place)| place.radius_mm))
            && !is_near(motion.and_then(RunMotion::nearest).map(|(_, near)| near.spare_mm()))
    });
    if holds {
        let effect = "; installed radius and clearances within their limits".to_owned();
        return (Severity::Note, effect, "Support the hose where it bows out".to_owned());
    }
    (Severity::Warn, String::new(), "Give 8 % slack or less".to_owned())
}

fn below_minimum(run: &RunContext<'_>, bow: &SpanBow<'_>) -> Finding {
    let limit_mm = run.solved.radius_limit_mm;
    let (_, needed) = run.figures().lengths(bow.radius_mm, limit_mm);
    Finding {
        value: Some(bow.radius_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        message: format!("{}, minimum {needed}, centre line", bow_words(run, bow)),
        hint: "Route the hose round a bend that takes up the slack, or make the straight longer"
            .to_owned(),
        source: format!(
            "{}; bow: elastica held in line (calculated, estimate without the hose's weight)",
            RULE.source
        ),
        ..run.finding_at(&RULE, f64::midpoint(bow.span.from_mm, bow.span.to_mm))
    }
}

/// `5 % slack on 300 mm of straight: bow 43 mm, radius about 114 mm`
fn bow_words(run: &RunContext<'_>, bow: &SpanBow<'_>) -> String {
    let figures = run.figures();
    let (radius, _) = figures.lengths(bow.radius_mm, run.solved.radius_limit_mm);
    let (below, least) = if bow.is_bound { ("below", "at least ") } else { ("about", "") };
    format!(
        "{} slack on {} of straight: bow {least}{}, radius {below} {radius}",
        Figures::percent(bow.slack_pct),
        figures.length(bow.span.length_mm()),
        figures.length(bow.height_mm),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    /// A straight run whose free span is `span` long, with `slack` per cent on that span.
    fn straight(span: f64, slack: f64) -> Fixture {
        // Two set-backs of 21 and two sockets of 24; the sockets' share of slack goes to the span.
        let whole = span + 48.0;
        Fixture::straight(whole + 42.0, |bay| run(bay).slack_pct = Some(slack * span / whole))
    }

    #[test]
    fn the_ends_of_the_range_are_in_it() {
        for (slack, count) in [(5.0, 0), (8.0, 0), (4.99, 1), (8.01, 1), (0.0, 1)] {
            let fixture = Fixture::edited(|bay| run(bay).slack_pct = Some(slack));
            let found = check(&fixture.context());
            assert_eq!(found.len(), count, "{slack}");
            if let Some(one) = found.first() {
                assert!((one.value.unwrap() - slack).abs() < 1e-9);
                assert_eq!(one.limit, Some(if slack < 5.0 { 5.0 } else { 8.0 }));
                assert_eq!(one.unit, Unit::Percent);
            }
        }
    }

    #[test]
    fn five_per_cent_on_a_short_straight_span_bows_too_tight() {
        // Handbook: 5 % on 300 mm bends to 114 mm, bow 0.1437 of the span.
        let mut fixture = straight(300.0, 5.0);
        // Only the drawn route is known.
        fixture.lay = None;
        fixture.solved.radius_limit_mm = 121.0;
        let found = check(&fixture.context());
        let tight: Vec<_> = found.iter().filter(|f| f.unit == Unit::Mm).collect();
        assert_eq!(tight.len(), 1);
        assert!((tight[0].value.unwrap() - 113.83).abs() < 0.02, "{:?}", tight[0].value);
        assert!(
            tight[0].message.contains("bow 43.1 mm, radius about 113.8 mm, minimum 121 mm"),
            "{}",
            tight[0].message
        );
        fixture.solved.radius_limit_mm = 113.0;
        assert!(check(&fixture.context()).iter().all(|f| f.unit != Unit::Mm));
    }

    #[test]
    fn within_the_range_a_long_straight_span_is_left_alone() {
        let fixture = Fixture::straight(600.0, |_| {});
        assert_eq!(check(&fixture.context()), []);
    }

    #[test]
    fn a_bent_span_is_not_taken_for_a_bow() {
        let mut fixture = Fixture::z();
        fixture.solved.radius_limit_mm = 1e6;
        assert_eq!(check(&fixture.context()), []);
    }

    #[test]
    fn beyond_the_form_only_the_bound_is_said() {
        let found = check(&Fixture { lay: None, ..straight(300.0, 40.0) }.context());
        let tight: Vec<_> = found.iter().filter(|f| f.unit == Unit::Mm).collect();
        assert!(tight[0].message.contains("radius below 74.1 mm"), "{}", tight[0].message);
        assert!((tight[0].value.unwrap() - 300.0 * 0.247_008_223).abs() < 1e-6);
    }

    #[test]
    fn little_slack_that_reaches_is_a_note_and_what_may_be_pulled_tight_a_warning() {
        let severity = |pressure: Option<f64>, slack: f64| {
            let fixture = Fixture::straight(1000.0, |bay| {
                run(bay).slack_pct = Some(slack);
                run(bay).service.pressure_bar = pressure;
            });
            check(&fixture.context())[0].severity
        };
        // 38 mm of slack less 4 % of 910 mm is less than the tolerance of 9.5 mm.
        assert_eq!(severity(None, 4.0), Severity::Warn);
        assert_eq!(severity(Some(1.0), 4.0), Severity::Note);
        assert_eq!(severity(Some(1.0), 0.5), Severity::Warn);
    }

    #[test]
    fn much_slack_is_a_note_where_the_installed_shape_holds() {
        let severity = |limit_mm: f64| {
            let mut fixture = straight(1000.0, 20.0);
            fixture.solved.radius_limit_mm = limit_mm;
            check(&fixture.context())[0].severity
        };
        assert_eq!((severity(100.0), severity(1000.0)), (Severity::Note, Severity::Warn));
    }
}
