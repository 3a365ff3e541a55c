//! What a rule between two pack values must satisfy.

use super::{Check, check_when};
use crate::catalogue::Kind;
use crate::catalogue::value::{ValueRule, When};

/// A rule between two values says where it comes from, and a pack that says nothing keeps it.
pub(super) fn check_rule(kind: &Kind, rule: &ValueRule) -> Check {
    check_when(kind, [&rule.when, &rule.asks])?;
    let is_default = |when: &When| {
        kind.values.iter().any(|value| value.id == when.value && value.default == when.is)
    };
    if rule.source.is_empty() || is_default(&rule.when) && !is_default(&rule.asks) {
        return Err(format!("`{}` needs a source, and defaults that keep it", rule.when));
    }
    Ok(())
}
