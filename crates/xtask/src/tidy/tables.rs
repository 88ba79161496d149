//! Every rule has its table of cases beside it, and a table that judges has a case on the limit.

use super::{Finding, tree::Tree};

const ON_THE_LIMIT: &str = "at-the-limit";

/// `listed` is how many rules the registry has.
pub(super) fn check(tree: &Tree, listed: usize) -> Vec<Finding> {
    let mut findings = Vec::new();
    let mut declared = 0;
    for file in tree.files("crates/rules/src/", ".rs") {
        let rules = file
            .text
            .lines()
            .filter(|line| declares_a_rule(line))
            .count();
        if rules == 0 {
            continue;
        }
        declared += rules;
        let table = file.path.replace(".rs", ".tsv");
        let Some(cases) = tree.file(&table) else {
            findings.push(Finding::new(
                &file.path,
                "is a rule without a table",
                "put its cases into a .tsv beside it",
            ));
            continue;
        };
        let says = |verdict: &str| cells(&cases.text).any(|cell| cell == verdict);
        let on_the_limit =
            says(ON_THE_LIMIT) || cells(&cases.text).any(|cell| cell.contains("on the limit"));
        if says("beyond") && !on_the_limit {
            findings.push(Finding::new(
                table,
                "has no case on the limit",
                "add one, and just inside, and just outside",
            ));
        }
    }
    if declared != listed {
        let what = format!("lists {listed} rules, but {declared} are declared");
        findings.push(Finding::new(
            "crates/rules/src/rules.rs",
            what,
            "enter every rule in RULES",
        ));
    }
    findings
}

fn declares_a_rule(line: &str) -> bool {
    line.starts_with("pub const ") && line.contains(": Rule = ")
}

fn cells(table: &str) -> impl Iterator<Item = &str> {
    table.lines().skip(1).flat_map(|row| row.split('\t'))
}

#[cfg(test)]
mod tests {
    use super::*;

    const DECLARES: &str = "pub const RULE: Rule = Rule {\n";

    #[test]
    fn a_rule_needs_a_table_and_a_judging_table_a_case_on_the_limit() {
        let tree = Tree::of(&[
            ("crates/rules/src/drum/bare.rs", DECLARES),
            ("crates/rules/src/drum/loose.rs", DECLARES),
            (
                "crates/rules/src/drum/loose.tsv",
                "reading\tverdict\twhy\n2\tbeyond\tover\n",
            ),
            ("crates/rules/src/drum/good.rs", DECLARES),
            (
                "crates/rules/src/drum/good.tsv",
                "reading\tverdict\twhy\n2\tbeyond\tover\n1\tat-the-limit\ton it\n",
            ),
            ("crates/rules/src/drum/eye.rs", DECLARES),
            (
                "crates/rules/src/drum/eye.tsv",
                "seen\tverdict\twhy\ncrack\treplace\ta crack\n",
            ),
            ("crates/rules/src/drum.rs", "mod bare;\n"),
        ]);
        let files: Vec<_> = check(&tree, 4)
            .into_iter()
            .map(|finding| finding.file)
            .collect();
        assert_eq!(
            files,
            [
                "crates/rules/src/drum/bare.rs",
                "crates/rules/src/drum/loose.tsv"
            ]
        );
    }

    #[test]
    fn a_rule_that_is_not_listed_is_found() {
        let tree = Tree::of(&[
            (
                "crates/rules/src/stroke.rs",
                "pub const SLACK: Rule = Rule {\n",
            ),
            ("crates/rules/src/stroke.tsv", "reading\twhy\n"),
        ]);
        assert!(check(&tree, 1).is_empty());
        assert_eq!(check(&tree, 0).len(), 1);
    }
}
