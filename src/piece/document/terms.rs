//! The maker's own terms: limits set otherwise and findings accepted, each with a reason.

use crate::piece::{Allowance, OwnLimit};
use crate::units::reader::{FaultKind, Field, Items, TableReader};
use std::collections::HashSet;

/// No limit has a longer key. Without a bound, many limits below one long name would fill the memory.
const LONGEST_KEY: usize = 200;

const REASON: &str = "why, such as `reason = \"tasting size\"`";

/// Limits under keys such as `"headroom.min"`, which TOML also lets one write without quotes, as tables within tables.
pub(super) fn limits(field: &Field<'_>) -> Vec<OwnLimit> {
    let mut limits = Limits::default();
    limits.read(field, "");
    limits.found
}

#[derive(Default)]
struct Limits {
    found: Vec<OwnLimit>,
    keys: HashSet<String>,
}

impl Limits {
    /// Reads the limits of a table whose own key is `prefix`. Documents bound how deep tables nest.
    fn read(&mut self, field: &Field<'_>, prefix: &str) {
        for (name, value) in field.named() {
            if prefix.len() + name.len() > LONGEST_KEY {
                value.fault(|| FaultKind::UnknownKey { key: name.to_owned(), nearest: None, known: Vec::new() });
                continue;
            }
            let key = if prefix.is_empty() { name.to_owned() } else { format!("{prefix}.{name}") };
            if value.is_table() && !value.has_any(&["value", "reason"]) {
                self.read(&value, &key);
            } else if self.keys.insert(key.clone()) {
                self.found.extend(value.table(|table| limit(table, key)));
            } else {
                value.fault(|| FaultKind::RepeatedKey { key });
            }
        }
    }
}

fn limit(table: &TableReader<'_>, key: String) -> Option<OwnLimit> {
    let value = table.required("value", "the limit, such as `value = \"1.2 mm\"`");
    let value = table.optional("unit").unit().and_then(|unit| value.any_measure(unit));
    let reason = table.required("reason", REASON).text();
    Some(OwnLimit { key, value: value?, reason: reason?.to_owned() })
}

pub(super) fn allowances(field: &Field<'_>) -> Vec<Allowance> {
    let allowance = |table: &TableReader<'_>| {
        let rule = table.required("rule", "the rule whose findings are accepted, such as `rule = \"piece-mass-unusual\"`").text();
        let reason = table.required("reason", REASON).text();
        Some(Allowance { rule: rule?.to_owned(), reason: reason?.to_owned() })
    };
    field.tables(Items { what: "allow", numbered: true, named: false, most: Items::ANY }, allowance).unwrap_or_default()
}
