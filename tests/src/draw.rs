//! Runs a law over things drawn at random, and shrinks what breaks it.
//!
//! The seed is fixed, so that a run can be repeated; `PROPTEST_RNG_SEED` and `PROPTEST_CASES` choose
//! others.

use std::fmt::Debug;

use proptest::prelude::any;
use proptest::test_runner::{Config, RngSeed, TestCaseError, TestError, TestRunner};

/// Most tries at making a broken case smaller.
const SHRINKS_MAX: u32 = 1_000;
/// The seed where the environment names none.
const SEED: u64 = 20_260_801;

/// How much to draw.
#[derive(Debug, Clone, Copy)]
pub struct Effort {
    /// How many cases, where the environment does not say.
    pub cases: u32,
    /// Most numbers in a list of choices.
    pub numbers_max: usize,
}

/// Holds `law` against what `draw` makes of lists of choices; lists that it refuses are passed over.
///
/// # Errors
/// The smallest case found that breaks the law, and how it does.
pub fn law<T: Debug>(
    effort: Effort,
    draw: impl Fn(&[u16]) -> Option<T>,
    law: impl Fn(&T) -> Result<(), String>,
) -> Result<(), String> {
    let mut config = Config {
        max_shrink_iters: SHRINKS_MAX,
        failure_persistence: None,
        max_global_rejects: u32::MAX,
        ..Config::default()
    };
    if std::env::var_os("PROPTEST_CASES").is_none() {
        config.cases = effort.cases;
    }
    if matches!(config.rng_seed, RngSeed::Random) {
        config.rng_seed = RngSeed::Fixed(SEED);
    }
    let numbers = (effort.numbers_max / 4)..effort.numbers_max;
    let lists = proptest::collection::vec(any::<u16>(), numbers);
    let outcome = TestRunner::new(config).run(&lists, |list| match draw(&list) {
        Some(drawn) => law(&drawn).map_err(TestCaseError::fail),
        None => Err(TestCaseError::reject("refused")),
    });
    match outcome {
        Ok(()) => Ok(()),
        Err(TestError::Fail(why, list)) => Err(format!("{why}\n{:?}\nlist: {list:?}", draw(&list))),
        Err(TestError::Abort(why)) => Err(format!("gave up: {why}")),
    }
}
