//! Findings keep their places while something is held: each has a slot that stays, also when what was
//! found is gone for the moment; what is new comes last. On release they are sorted again, worst first.

use std::collections::HashMap;
use std::sync::Arc;

use crate::checks::{Finding, Severity};
use crate::report::findings::Findings;

/// The place of a finding in the lists.
#[derive(Debug, Clone)]
pub(super) struct Slot {
    /// The same as long as the finding is the same.
    pub(super) id: u64,
    /// Under which heading it stands.
    pub(super) heading: Heading,
    /// The slot of the finding that it comes of.
    pub(super) under: Option<u64>,
    /// What is in it.
    pub(super) content: Content,
}

/// What is in a slot.
#[derive(Debug, Clone)]
pub(super) enum Content {
    /// A finding, by its place among the findings.
    Found(usize),
    /// What was found when it was found last.
    Gone(Arc<Finding>),
}

/// A heading of the lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Heading {
    /// Faults and warnings of the hose in this place; while something is held, those it had before.
    Hose(usize),
    /// Faults and warnings about the bay as a whole.
    Bay,
    /// Notes.
    Notes,
    /// Came up while something is held.
    New,
}

impl Slot {
    /// Its finding's place among the findings.
    pub(super) fn index(&self) -> Option<usize> {
        match self.content {
            Content::Found(index) => Some(index),
            Content::Gone(_) => None,
        }
    }
}

/// All slots, in the order in which they are shown.
#[derive(Debug, Clone, Default)]
pub(super) struct Slots {
    slots: Vec<Slot>,
    next_id: u64,
}

/// Whether something is held just now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    /// The lists are sorted.
    Settled,
    /// The lists stand still.
    Held,
}

impl Slots {
    /// The slots in the order in which they are shown.
    pub(super) fn iter(&self) -> std::slice::Iter<'_, Slot> {
        self.slots.iter()
    }

    /// The slot of the finding in this place.
    pub(super) fn id_of(&self, index: usize) -> Option<u64> {
        self.slots.iter().find(|slot| slot.index() == Some(index)).map(|slot| slot.id)
    }

    /// The place of the finding in this slot.
    pub(super) fn index_of(&self, id: u64) -> Option<usize> {
        self.slots.iter().find(|slot| slot.id == id)?.index()
    }

    /// The slots once what was found `before` has become `now`.
    pub(super) fn followed(
        self,
        before: &[Arc<Finding>],
        now: &[Arc<Finding>],
        told: &Findings,
        pace: Pace,
    ) -> Self {
        let (partner, taken) = self.partners(before, now);
        let mut next_id = self.next_id;
        let mut ids = vec![None; now.len()];
        let mut slots = Vec::with_capacity(now.len());
        for (slot, partner) in self.slots.into_iter().zip(partner) {
            let content = match (partner, slot.content) {
                (Some(index), _) => {
                    ids[index] = Some(slot.id);
                    Content::Found(index)
                }
                (None, Content::Found(was)) => {
                    let Some(finding) = before.get(was) else { continue };
                    Content::Gone(Arc::clone(finding))
                }
                (None, gone @ Content::Gone(_)) => gone,
            };
            slots.push(Slot { content, ..slot });
        }
        let mut fresh = || {
            next_id += 1;
            next_id
        };
        if pace == Pace::Settled {
            slots.clear();
            let ids: Vec<u64> = ids.iter().map(|id| id.unwrap_or_else(&mut fresh)).collect();
            slots.extend(sorted(told, &ids));
        } else {
            let new = (0..now.len()).filter(|index| !taken[*index]);
            slots.extend(new.map(|index| Slot {
                id: fresh(),
                heading: Heading::New,
                under: None,
                content: Content::Found(index),
            }));
        }
        Self { slots, next_id }
    }

    /// For each slot the finding that is the same now, and which of those are taken: of several
    /// alike on one hose the nearest.
    fn partners(
        &self,
        before: &[Arc<Finding>],
        now: &[Arc<Finding>],
    ) -> (Vec<Option<usize>>, Vec<bool>) {
        let mut partner = vec![None; self.slots.len()];
        let mut taken = vec![false; now.len()];
        // What was not looked for again is the same one in memory.
        let places: HashMap<_, usize> = now.iter().map(Arc::as_ptr).zip(0..).collect();
        for (place, slot) in self.slots.iter().enumerate() {
            let was = slot.index().and_then(|index| before.get(index));
            if let Some(index) = was.and_then(|was| places.get(&Arc::as_ptr(was))) {
                partner[place] = Some(*index);
                taken[*index] = true;
            }
        }
        // Thousands of findings are not compared each with each.
        let mut by_name: HashMap<Name<'_>, Vec<usize>> = HashMap::new();
        for (index, finding) in now.iter().enumerate().filter(|(index, _)| !taken[*index]) {
            by_name.entry(name(finding)).or_default().push(index);
        }
        let mut pairs = Vec::new();
        let open = self.slots.iter().enumerate().filter(|(place, _)| partner[*place].is_none());
        for (place, slot) in open {
            let was = match &slot.content {
                Content::Found(index) => before.get(*index),
                Content::Gone(finding) => Some(finding),
            };
            let Some(was) = was else { continue };
            let alike = by_name.get(&name(was)).into_iter().flatten();
            pairs.extend(alike.map(|index| (apart_mm(was, &now[*index]), place, *index)));
        }
        pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (_, place, index) in pairs {
            if partner[place].is_none() && !taken[index] {
                partner[place] = Some(index);
                taken[index] = true;
            }
        }
        (partner, taken)
    }

    /// The finding that speaks for a hose where none is looked at: `kept` as long as it is there and
    /// the hose's, else the worst; a note does not.
    pub(super) fn speaker(
        &self,
        findings: &[Arc<Finding>],
        run: Option<&str>,
        kept: Option<u64>,
    ) -> Option<u64> {
        let speaks = |slot: &&Slot| {
            let finding = slot.index().and_then(|index| findings.get(index));
            finding.is_some_and(|finding| {
                finding.run.is_some()
                    && finding.run.as_deref() == run
                    && finding.point.is_some()
                    && finding.severity != Severity::Note
            })
        };
        let severity = |slot: &&Slot| slot.index().map(|index| findings[index].severity);
        let kept = self.slots.iter().filter(speaks).find(|slot| Some(slot.id) == kept);
        kept.or_else(|| self.slots.iter().filter(speaks).min_by_key(severity)).map(|slot| slot.id)
    }
}

/// The slots of findings of these ids, as they are told.
fn sorted<'a>(told: &'a Findings, ids: &'a [u64]) -> impl Iterator<Item = Slot> + 'a {
    let slot = |index: usize, heading, under| {
        let id = ids.get(index).copied();
        id.map(|id| Slot { id, heading, under, content: Content::Found(index) })
    };
    let of_hoses = told
        .hoses
        .iter()
        .flat_map(|hose| hose.causes.iter().map(|cause| (Heading::Hose(hose.place), cause)));
    let causes = of_hoses.chain(told.bay.iter().map(|cause| (Heading::Bay, cause)));
    let causes = causes.flat_map(move |(heading, cause)| {
        let under = ids.get(cause.finding).copied();
        let lead = std::iter::once(slot(cause.finding, heading, None));
        lead.chain(cause.follows.iter().map(move |index| slot(*index, heading, under)))
    });
    let notes = told.notes.iter().flat_map(|notes| &notes.findings);
    causes.chain(notes.map(move |index| slot(*index, Heading::Notes, None))).flatten()
}

/// What makes two findings the same one from one moment of a drag to the next, but for the place.
fn name(finding: &Finding) -> Name<'_> {
    (finding.rule, finding.run.as_deref(), finding.other.as_deref())
}

/// Rule, run, and what else it is about.
type Name<'a> = (&'a str, Option<&'a str>, Option<&'a str>);

fn apart_mm(a: &Finding, b: &Finding) -> f64 {
    match (a.at_mm, b.at_mm) {
        (Some(a), Some(b)) => (a - b).abs(),
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::Unit;
    use crate::engine::solve_routing;

    fn finding(rule: &'static str, severity: Severity, at_mm: f64) -> Arc<Finding> {
        Arc::new(Finding {
            rule,
            severity,
            run: Some("feed".to_owned()),
            other: None,
            at_mm: Some(at_mm),
            point: Some(glam::DVec3::ZERO),
            value: None,
            limit: None,
            unit: Unit::Mm,
            message: format!("{rule} at {at_mm}"),
            hint: String::new(),
            source: String::new(),
        })
    }

    /// Released, with one hose in the routing.
    fn settled(slots: Slots, before: &[Arc<Finding>], now: &[Arc<Finding>]) -> Slots {
        let mut bay = crate::app::fixture::bay();
        let routing = &mut bay.routings[0];
        routing.runs.truncate(1);
        "feed".clone_into(&mut routing.runs[0].id);
        let solution = solve_routing(&bay, &bay.routings[0]);
        let told = Findings::of(now, &bay.routings[0], &solution);
        slots.followed(before, now, &told, Pace::Settled)
    }

    fn said(slots: &Slots, now: &[Arc<Finding>]) -> Vec<String> {
        let text = |slot: &Slot| match &slot.content {
            Content::Found(index) => now[*index].message.clone(),
            Content::Gone(finding) => format!("({})", finding.message),
        };
        slots.iter().map(text).collect()
    }

    fn ids(slots: &Slots) -> Vec<u64> {
        slots.iter().map(|slot| slot.id).collect()
    }

    #[test]
    fn what_stays_keeps_its_place_what_goes_leaves_it_and_what_comes_is_last() {
        use Severity::{Fail, Warn};
        let first = vec![finding("taut", Fail, 10.0), finding("bend-radius", Warn, 50.0)];
        let slots = settled(Slots::default(), &[], &first);
        assert_eq!(said(&slots, &first), ["taut at 10", "bend-radius at 50"]);
        let was = ids(&slots);

        // It has become worse, another is gone, and one more has come.
        let second = vec![finding("bend-radius", Fail, 52.0), finding("slack-range", Fail, 0.0)];
        let slots = slots.followed(&first, &second, &Findings::default(), Pace::Held);
        assert_eq!(
            said(&slots, &second),
            ["(taut at 10)", "bend-radius at 52", "slack-range at 0"]
        );
        assert_eq!(ids(&slots)[..2], was);
        let headings: Vec<_> = slots.iter().map(|slot| slot.heading).collect();
        assert_eq!(
            headings,
            [Heading::Hose(0), Heading::Hose(0), Heading::New],
            "headings stand still too"
        );

        // It comes back to where it was.
        let third = vec![finding("taut", Fail, 12.0), finding("bend-radius", Fail, 53.0)];
        let slots = slots.followed(&second, &third, &Findings::default(), Pace::Held);
        assert_eq!(said(&slots, &third), ["taut at 12", "bend-radius at 53", "(slack-range at 0)"]);

        // Released: sorted, and nothing is left of what is gone; who they are stays.
        let last = vec![finding("bend-radius", Fail, 53.0), finding("taut", Warn, 12.0)];
        let slots = settled(slots, &third, &last);
        assert_eq!(said(&slots, &last), ["bend-radius at 53", "taut at 12"]);
        assert_eq!(ids(&slots), [was[1], was[0]]);
        assert_eq!(slots.index_of(was[0]), Some(1));
        assert_eq!(slots.id_of(1), Some(was[0]));
    }

    #[test]
    fn of_two_alike_on_one_hose_the_nearest_is_the_same() {
        let two = [100.0, 400.0].map(|at| finding("bend-radius", Severity::Fail, at)).to_vec();
        let slots = settled(Slots::default(), &[], &two);
        let was = ids(&slots);
        let one = vec![finding("bend-radius", Severity::Fail, 395.0)];
        let slots = slots.followed(&two, &one, &Findings::default(), Pace::Held);
        assert_eq!(said(&slots, &one), ["(bend-radius at 100)", "bend-radius at 395"]);
        assert_eq!(slots.index_of(was[1]), Some(0));
        assert_eq!(slots.index_of(was[0]), None);
    }

    #[test]
    fn the_speaker_of_a_hose_is_its_worst_and_stays_while_it_can() {
        use Severity::{Fail, Note, Warn};
        let all = vec![
            finding("taut", Warn, 0.0),
            finding("bend-radius", Fail, 0.0),
            finding("fluid", Note, 0.0),
        ];
        let slots = settled(Slots::default(), &[], &all);
        let id = [0, 1, 2].map(|index| slots.id_of(index).unwrap());
        assert_eq!(slots.speaker(&all, Some("feed"), None), Some(id[1]));
        assert_eq!(slots.speaker(&all, Some("feed"), Some(id[0])), Some(id[0]));
        assert_eq!(slots.speaker(&all, Some("feed"), Some(id[2])), Some(id[1]), "notes are quiet");
        assert_eq!(slots.speaker(&all, Some("return"), Some(id[0])), None);
        assert_eq!(slots.speaker(&all, None, None), None);
    }
}
