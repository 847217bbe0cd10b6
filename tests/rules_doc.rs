//! `docs/rules.md` lists every rule as the program tells it.

use hosewright::checks::RULES;

/// The list below the introduction. To bring the page in step, paste what the failing test prints.
fn list() -> String {
    let sections = RULES.iter().map(|rule| {
        format!(
            "## `{}`: {}\n\nAt worst: **{}**.\n\n{}\n\nSource: {}.\n",
            rule.id,
            rule.title,
            rule.severity.noun(),
            rule.what,
            rule.source,
        )
    });
    sections.collect::<Vec<_>>().join("\n")
}

/// Line ends do not count.
fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_page_is_in_step_with_the_rules() {
    let page = include_str!("../docs/rules.md");
    let start = page.find("\n## `").expect("the page has a list");
    let list = list();
    assert!(words(&page[start..]) == words(&list), "docs/rules.md should end with:\n\n{list}");
}
