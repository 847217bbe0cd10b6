//! `slack-range`: slack within 5 to 8 %, and what it does to the radius where a span is straight.

use crate::checks::context::RunContext;
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity, Unit};
use crate::engine::FreeSpan;
use crate::geom::{BOW_SLACK_MAX, in_line_bow};
use crate::model::{Mark, Source};
use crate::units::EPS_MM;

/// The rule.
pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "slack-range",
    severity: Severity::Warn,
    title: "Slack out of range, or bowing a straight span too tight",
    what: "The slack in per cent against 5 to 8 %. And for each straight span between held points \
           (socket mouths, clamps): the radius of the bow its share of the slack makes of it, from \
           the exact elastica held in line at both ends, against the hose's least radius to the \
           centre line; this even where the slack is within 5 to 8 %, because on a short span that \
           slack bends the hose hard. Above 15 % on a span only what is sure is said: it bows \
           tighter than at 15 %. The weight of the hose is left out.",
    source: Source::fixed(
        Mark::Published,
        "5 to 8 %: FAA AMT Handbook – General p. 7-19, NAVEDTRA 14105 p. 5-11",
    ),
};

/// Least and greatest slack, per cent ([`RULE`]).
const RANGE_PCT: [f64; 2] = [5.0, 8.0];
/// A per cent figure within this of the range counts as in it.
const EPS_PCT: f64 = 1e-9;
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

/// One finding for the run's slack, and one for each straight span that bows too tight.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    let bows: Vec<_> = run.solved.spans.iter().filter_map(bow_of).collect();
    let mut found: Vec<_> = out_of_range(run, &bows).into_iter().collect();
    let limit_mm = run.solved.radius_limit_mm;
    found.extend(
        bows.iter().filter(|b| b.radius_mm < limit_mm - EPS_MM).map(|bow| too_tight(run, bow)),
    );
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

fn out_of_range(run: &RunContext<'_>, bows: &[SpanBow<'_>]) -> Option<Finding> {
    let [least, most] = RANGE_PCT;
    let slack = run.run.slack_in_force_pct();
    let (limit, word, hint) = if slack < least - EPS_PCT {
        (
            least,
            "under",
            "Give 5 % or more, unless the hose is held so that it cannot be pulled tight",
        )
    } else if slack > most + EPS_PCT {
        (most, "over", "Give 8 % or less, unless the hose has room to hang out and stays clear")
    } else {
        return None;
    };
    let tightest = bows.iter().min_by(|a, b| a.radius_mm.total_cmp(&b.radius_mm));
    let effect = tightest.map_or_else(String::new, |bow| format!("; {}", bow_words(run, bow)));
    Some(Finding {
        value: Some(slack),
        limit: Some(limit),
        unit: Unit::Percent,
        message: format!("{} slack is {word} the usual 5 to 8 %{effect}", Figures::percent(slack)),
        hint: hint.to_owned(),
        ..run.finding_at(&RULE, run.solved.centreline_mm / 2.0)
    })
}

fn too_tight(run: &RunContext<'_>, bow: &SpanBow<'_>) -> Finding {
    let limit_mm = run.solved.radius_limit_mm;
    let (_, needed) = run.figures().lengths(bow.radius_mm, limit_mm);
    Finding {
        value: Some(bow.radius_mm),
        limit: Some(limit_mm),
        unit: Unit::Mm,
        message: format!("{}; this hose needs {needed} (to the centre line)", bow_words(run, bow)),
        hint: "On a short straight span slack turns into a tight bow: lead the hose round a bend \
               that takes the slack up, or make the span longer, rather than adding slack"
            .to_owned(),
        source: format!(
            "{}; bow: elastica held in line (calculated, estimate without the hose's weight)",
            RULE.source
        ),
        ..run.finding_at(&RULE, f64::midpoint(bow.span.from_mm, bow.span.to_mm))
    }
}

/// `5 % on a straight span of 300 mm bows to about 114 mm, 43 mm off the line`
fn bow_words(run: &RunContext<'_>, bow: &SpanBow<'_>) -> String {
    let figures = run.figures();
    let (radius, _) = figures.lengths(bow.radius_mm, run.solved.radius_limit_mm);
    let (how, least) = if bow.is_bound { ("tighter than", "at least ") } else { ("to about", "") };
    format!(
        "{} on the straight span of {} bows {how} {radius}, {least}{} off the line",
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
                assert_eq!(one.value, Some(slack));
                assert_eq!(one.limit, Some(if slack < 5.0 { 5.0 } else { 8.0 }));
                assert_eq!(one.unit, Unit::Percent);
            }
        }
    }

    #[test]
    fn five_per_cent_on_a_short_straight_span_bows_too_tight() {
        // Handbook: 5 % on 300 mm bends to 114 mm, bow 0.1437 of the span.
        let mut fixture = straight(300.0, 5.0);
        fixture.solved.radius_limit_mm = 121.0;
        let found = check(&fixture.context());
        let tight: Vec<_> = found.iter().filter(|f| f.unit == Unit::Mm).collect();
        assert_eq!(tight.len(), 1);
        assert!((tight[0].value.unwrap() - 113.83).abs() < 0.02, "{:?}", tight[0].value);
        assert!(
            tight[0].message.contains("bows to about 113.8 mm, 43.1 mm off the line"),
            "{}",
            tight[0].message
        );
        assert!(tight[0].message.contains("needs 121 mm"), "{}", tight[0].message);
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
        let found = check(&straight(300.0, 40.0).context());
        let tight: Vec<_> = found.iter().filter(|f| f.unit == Unit::Mm).collect();
        assert!(tight[0].message.contains("bows tighter than 74.1 mm"), "{}", tight[0].message);
        assert!((tight[0].value.unwrap() - 300.0 * 0.247_008_223).abs() < 1e-6);
    }

    #[test]
    fn out_of_range_says_what_the_slack_does() {
        let found = check(&straight(1000.0, 20.0).context());
        assert!(found[0].message.contains("over the usual 5 to 8 %; 20 % on"), "{found:?}");
    }
}
