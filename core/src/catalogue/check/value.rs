//! What a rule between two pack values must satisfy.

use super::{Check, check_when};
use crate::catalogue::Kind;
use crate::catalogue::value::{Value, ValueRule, When};

/// A rule between two values says where it comes from, and a pack that says nothing keeps it.
pub(super) fn check_rule(kind: &Kind, rule: &ValueRule) -> Check {
    check_when(kind, [&rule.when, &rule.asks])?;
    let is_default = |when: &When| {
        kind.values
            .iter()
            .any(|value| value.id == when.value && value.default.as_ref() == Some(&when.is))
    };
    if rule.source.is_empty() || is_default(&rule.when) && !is_default(&rule.asks) {
        return Err(format!("`{}` needs a source, and defaults that keep it", rule.when));
    }
    Ok(())
}

/// What has no default is a number, and its range tells what a pack may give.
pub(super) fn check_value(value: &Value) -> Check {
    let ranged = value.min.is_some() && value.max.is_some();
    if value.source.is_empty() || value.default.is_none() && !ranged {
        return Err(format!("value `{}` needs a source, and a default or a range", value.id));
    }
    Ok(())
}
