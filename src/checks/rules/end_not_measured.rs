//! `end-not-measured`: end fittings with typical dimensions.

use crate::checks::context::{RunContext, SIDES};
use crate::checks::figures::Figures;
use crate::checks::{Finding, RuleInfo, Severity};
use crate::engine::ResolvedEnd;
use crate::model::{Mark, Side, Source};

pub(in crate::checks) const RULE: RuleInfo = RuleInfo {
    id: "end-not-measured",
    severity: Severity::Note,
    title: "End fitting not measured",
    what: "Each elbow whose along, across and socket were not all measured on the bench; and \
           each straight end with a typical figure. Each such figure is named, with its source. \
           Along and across change the cut length; the socket changes where bends may begin.",
    source: Source::fixed(
        Mark::Practice,
        "public tables of elbows are too doubtful to build on: measure yours",
    ),
};

/// One finding an end.
pub(in crate::checks) fn check(run: &RunContext<'_>) -> Vec<Finding> {
    SIDES.into_iter().filter_map(|side| judge(run, side)).collect()
}

fn judge(run: &RunContext<'_>, side: Side) -> Option<Finding> {
    let end = match side {
        Side::A => &run.solved.from.end,
        Side::B => &run.solved.to.end,
    };
    let doubtful: Vec<_> =
        figures_of(end).into_iter().filter(|(_, _, source)| end.is_doubtful(source)).collect();
    if doubtful.is_empty() {
        return None;
    }
    let listed: Vec<String> = doubtful
        .chunk_by(|(_, _, a), (_, _, b)| a.mark == b.mark)
        .map(|of_one_mark| with_mark(run.figures(), of_one_mark))
        .collect();
    let sources: Vec<String> =
        doubtful.chunk_by(|(_, _, a), (_, _, b)| a == b).map(with_source).collect();
    let kind = if end.is_elbow() {
        format!("{}° elbow", end.angle_deg)
    } else {
        "straight end fitting".to_owned()
    };
    Some(Finding {
        other: run.run.end(side).end.clone(),
        message: format!("End {}: {kind} not measured ({})", side.letter(), listed.join("; ")),
        hint: "Measure along, across and socket of your own fitting, and enter them".to_owned(),
        source: if end.is_elbow() {
            format!("{}; {}", sources.join("; "), RULE.source)
        } else {
            sources.join("; ")
        },
        ..run.finding_at_end(&RULE, side)
    })
}

/// A figure of an end with its source.
type EndFigure<'a> = (&'static str, f64, &'a Source);

/// `along 21 mm, across 25 mm: from the bay file`
fn with_mark(figures: Figures, of_one_mark: &[EndFigure<'_>]) -> String {
    let listed: Vec<String> =
        of_one_mark.iter().map(|(name, mm, _)| format!("{name} {}", figures.length(*mm))).collect();
    let mark = of_one_mark.first().map_or("", |(_, _, source)| source.mark.word());
    format!("{}: {mark}", listed.join(", "))
}

/// `along, across: bay file /stock/ends/0 (typical, measure yours)`
fn with_source(of_one_source: &[EndFigure<'_>]) -> String {
    let names: Vec<&str> = of_one_source.iter().map(|(name, ..)| *name).collect();
    let source = of_one_source.first().map_or_else(String::new, |(.., source)| source.to_string());
    format!("{}: {source}", names.join(", "))
}

/// The figures that count: a straight end has no across.
fn figures_of(end: &ResolvedEnd) -> Vec<EndFigure<'_>> {
    let mut figures = vec![("along", end.along_mm, &end.along_source)];
    if end.is_elbow() {
        figures.push(("across", end.across_mm, &end.across_source));
    }
    figures.push(("socket", end.socket_mm, &end.socket_source));
    figures
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::fixture::{Fixture, run};

    #[test]
    fn a_straight_end_from_the_bay_file_passes() {
        assert_eq!(check(&Fixture::z().context()), []);
    }

    #[test]
    fn an_elbow_is_noted_until_all_of_it_is_measured() {
        let elbow = |measured: [Option<f64>; 3]| {
            let fixture = Fixture::edited(|bay| {
                let end = &mut run(bay).from;
                end.angle_deg = 90.0;
                [end.along_mm, end.across_mm, end.socket_mm] = measured;
            });
            check(&fixture.context())
        };
        let found = elbow([None; 3]);
        assert_eq!(found.len(), 1);
        assert!(found[0].message.contains("90° elbow"), "{}", found[0].message);
        assert!(found[0].message.contains("across 25 mm, socket 24 mm: from the bay file"));
        assert!(found[0].source.starts_with("along, across, socket: /stock/ends/0"));
        let found = elbow([Some(22.0), Some(26.0), None]);
        assert!(found[0].message.contains("socket 24 mm") && !found[0].message.contains("along"));
        assert_eq!(elbow([Some(22.0), Some(26.0), Some(25.0)]), []);
    }

    #[test]
    fn a_typical_socket_of_a_straight_end_is_noted() {
        let fixture = Fixture::edited(|bay| {
            bay.stock.ends[0].source_socket = Source::fixed(Mark::Typical, "a guess");
        });
        let found = check(&fixture.context());
        assert_eq!(found.len(), 2);
        assert!(found[1].message.contains("(socket 24 mm: typical, measure yours)"));
        assert!(found[1].source.starts_with("socket: a guess (typical, measure yours)"));
    }
}
