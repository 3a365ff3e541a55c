//! The search for a cause: least expected time, against every way tried, the classical ratio rule,
//! owners whose cause is known, and a list that is always worked through in one order.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::arithmetic_side_effects,
    reason = "a test may fail loudly"
)]

use std::fmt::Write as _;
use std::path::Path;

use stowfast_core::engine::Engine;
use stowfast_core::fault::{Graph, Node, Question, STATES_MAX, greedy, plan, printed};
use stowfast_core::vehicle::{Fault, Vehicle, Walks};
use stowfast_tests::choices::Choices;
use stowfast_tests::draw::{Effort, law};
use stowfast_tests::owner::{at, demo_of};
use stowfast_tests::question::vehicle;

const VEHICLES: [&str; 3] = ["a", "b", "c"];

/// A graph drawn from choices, with what its causes weigh.
#[derive(Debug)]
struct Drawn {
    questions: Vec<Question>,
    walks: Walks,
    weights: Vec<f64>,
}

impl Drawn {
    fn graph(&self) -> Graph<'_> {
        Graph { questions: self.questions.clone(), walks: &self.walks }
    }

    fn start(&self) -> Node {
        Node { weights: self.weights.clone(), asked: 0, zone: 0 }
    }
}

fn number(of: usize) -> f64 {
    f64::from(u32::try_from(of).unwrap())
}

/// Up to four causes and four questions of two or three answers in three zones; some questions are
/// imperfect, some wait for an earlier one, some can be answered anywhere.
fn draw(list: &[u16]) -> Drawn {
    let mut dice = Choices::new(list);
    let causes = dice.between(2, 4);
    let weights = (0..causes).map(|_| number(dice.between(1, 9))).collect();
    let walks: Vec<u32> = (0..9).map(|_| u32::try_from(dice.between(1, 30)).unwrap()).collect();
    let walks = Walks::closed(3, |from, to| Some(walks[from * 3 + to]));
    let questions = (0..dice.between(1, 4)).map(|at| {
        let answers = dice.between(2, 3);
        let imperfect = dice.once_in(4);
        let mut chance = vec![vec![0.0; causes]; answers];
        let mut add = |answer: usize, cause: usize, part: f64| chance[answer][cause] += part;
        (0..causes).for_each(|cause| {
            let (one, other) = (dice.below(answers), dice.below(answers));
            // Quarters add up without an error.
            let most = if imperfect && dice.once_in(2) { 0.75 } else { 1.0 };
            add(one, cause, most);
            add(other, cause, 1.0 - most);
        });
        let after = if at > 0 && dice.once_in(4) { vec![dice.below(at)] } else { Vec::new() };
        let zone = if dice.once_in(4) { None } else { Some(dice.below(3)) };
        Question { seconds: u32::try_from(dice.between(1, 60)).unwrap(), zone, after, chance }
    });
    Drawn { questions: questions.collect(), walks, weights }
}

/// What each cause is believed to be after some answers, by Bayes' rule from the start.
fn believed(drawn: &Drawn, seen: &[(usize, usize)]) -> Vec<f64> {
    let total: f64 = drawn.weights.iter().sum();
    let mut belief: Vec<f64> = drawn.weights.iter().map(|weight| weight / total).collect();
    for (question, answer) in seen {
        let row = &drawn.questions[*question].chance[*answer];
        let evidence: f64 = belief.iter().zip(row).map(|(one, chance)| one * chance).sum();
        belief.iter_mut().zip(row).for_each(|(one, chance)| *one = *one * chance / evidence);
    }
    belief
}

/// The least expected time over every way to go on: each question that may be asked is tried next,
/// also one that tells nothing, and nothing is kept from one way to another.
fn every_way(drawn: &Drawn, seen: &mut Vec<(usize, usize)>, zone: usize) -> f64 {
    let belief = believed(drawn, seen);
    let tells = |at: usize| {
        let differs = |row: &Vec<f64>| {
            let possible = belief.iter().zip(row).filter(|(one, _)| **one > 0.0);
            let chances: Vec<f64> = possible.map(|(_, chance)| *chance).collect();
            chances.iter().any(|one| (one - chances[0]).abs() > 1e-12)
        };
        seen.iter().all(|(asked, _)| *asked != at) && drawn.questions[at].chance.iter().any(differs)
    };
    let all = 0..drawn.questions.len();
    if !all.clone().any(tells) {
        return 0.0;
    }
    let may = |at: &usize| {
        let first = &drawn.questions[*at].after;
        seen.iter().all(|(asked, _)| asked != at) && !first.iter().any(|one| tells(*one))
    };
    let open: Vec<usize> = all.filter(may).collect();
    let mut least = f64::INFINITY;
    for at in open {
        let question = &drawn.questions[at];
        let there = question.zone.unwrap_or(zone);
        let mut time = f64::from(question.seconds + drawn.walks.between(zone, there));
        for (answer, row) in question.chance.iter().enumerate() {
            let chance: f64 = belief.iter().zip(row).map(|(one, chance)| one * chance).sum();
            if chance > 0.0 {
                seen.push((at, answer));
                time += chance * every_way(drawn, seen, there);
                seen.pop();
            }
        }
        least = least.min(time);
    }
    least
}

#[test]
fn no_way_to_ask_is_quicker_than_the_one_that_the_search_finds() {
    law(
        Effort { cases: 400, numbers_max: 80 },
        |list| Some(draw(list)),
        |drawn| {
            let (graph, start) = (drawn.graph(), drawn.start());
            let found = plan(&graph, &start, STATES_MAX);
            let least = every_way(drawn, &mut Vec::new(), 0);
            let walked = graph.expected_s(&start, &|node| plan(&graph, node, STATES_MAX).question);
            let same = |one: f64, other: f64| (one - other).abs() <= 1e-9 * other.max(1.0);
            if !same(found.expected_s, least) || found.gap_s > 0.0 {
                return Err(format!("{found:?}, every way: {least}"));
            }
            if !same(walked, least) {
                return Err(format!("followed it takes {walked}, every way: {least}"));
            }
            if graph.least_s(&start) > least + 1e-9 {
                return Err(format!("no less than {}, but {least} is had", graph.least_s(&start)));
            }
            Ok(())
        },
    )
    .unwrap();
}

/// Beyond its count of states the search takes the greedy rule, and the gap that it states holds.
#[test]
fn the_greedy_order_is_within_the_gap_that_it_states() {
    let (mut sum, mut best) = (0.0, 0.0);
    law(
        Effort { cases: 400, numbers_max: 80 },
        |list| Some(draw(list)),
        |drawn| {
            let (graph, start) = (drawn.graph(), drawn.start());
            let hasty = plan(&graph, &start, 0);
            let exact = plan(&graph, &start, STATES_MAX);
            let over = hasty.expected_s - exact.expected_s;
            if over < -1e-9 || over > hasty.gap_s + 1e-9 {
                return Err(format!("{hasty:?} against {exact:?}"));
            }
            Ok(())
        },
    )
    .unwrap();
    let mut dice = numbers();
    for _ in 0..400 {
        let list: Vec<u16> = (0..80).map(|_| dice()).collect();
        let drawn = draw(&list);
        sum += plan(&drawn.graph(), &drawn.start(), 0).expected_s;
        best += plan(&drawn.graph(), &drawn.start(), STATES_MAX).expected_s;
    }
    eprintln!(
        "greedy rule: {:.1} % above the least time on 400 drawn graphs",
        (sum / best - 1.0) * 100.0
    );
    assert!(sum >= best);
}

/// Numbers that look random and are the same on every run (Knuth's MMIX generator).
fn numbers() -> impl FnMut() -> u16 {
    let mut state = 1_u64;
    move || {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u16::try_from(state >> 48).unwrap()
    }
}

/// Independent single causes, each with one question that finds it for sure, in one zone, and one
/// cause that no question finds.
fn finds(list: &[u16]) -> Drawn {
    let mut dice = Choices::new(list);
    let count = dice.between(1, 6);
    let weights: Vec<f64> = (0..=count).map(|_| number(dice.between(1, 50))).collect();
    let questions = (0..count).map(|own| {
        let found = |cause: usize| if cause == own { 1.0 } else { 0.0 };
        let yes: Vec<f64> = (0..=count).map(found).collect();
        let no = yes.iter().map(|chance| 1.0 - chance).collect();
        let seconds = u32::try_from(dice.between(1, 100)).unwrap();
        Question { seconds, zone: Some(0), after: Vec::new(), chance: vec![yes, no] }
    });
    let questions = questions.collect();
    Drawn { questions, walks: Walks::closed(1, |_, _| None), weights }
}

/// The expected time of asking in an order until the cause is found.
fn in_order(drawn: &Drawn, order: &[usize]) -> f64 {
    let total: f64 = drawn.weights.iter().sum();
    let mut left = total;
    let mut sum = 0.0;
    for at in order {
        sum += left / total * f64::from(drawn.questions[*at].seconds);
        left -= drawn.weights[*at];
    }
    sum
}

fn orders(rest: &[usize]) -> Vec<Vec<usize>> {
    if rest.is_empty() {
        return vec![Vec::new()];
    }
    let first = |at: usize| {
        let mut others = rest.to_vec();
        let one = others.remove(at);
        orders(&others).into_iter().map(move |order| [vec![one], order].concat())
    };
    (0..rest.len()).flat_map(first).collect()
}

/// Simon, H. A. and Kadane, J. B., "Optimal problem-solving search: all-or-none solutions",
/// Artificial Intelligence 6(3), 1975: by falling probability over cost.
#[test]
fn single_causes_with_sure_questions_in_one_zone_are_asked_by_probability_over_time() {
    law(
        Effort { cases: 300, numbers_max: 24 },
        |list| Some(finds(list)),
        |drawn| {
            let (graph, mut node) = (drawn.graph(), drawn.start());
            let ratio = |at: usize| drawn.weights[at] / f64::from(drawn.questions[at].seconds);
            let all: Vec<usize> = (0..drawn.questions.len()).collect();
            let least = orders(&all)
                .iter()
                .map(|order| in_order(drawn, order))
                .fold(f64::INFINITY, f64::min);
            let found = plan(&graph, &node, STATES_MAX);
            if (found.expected_s - least).abs() > 1e-9 * least {
                return Err(format!("{found:?}, best of all orders: {least}"));
            }
            let mut by_ratio = all;
            by_ratio.sort_by(|one, other| ratio(*other).total_cmp(&ratio(*one)));
            for expected in by_ratio {
                let next = plan(&graph, &node, STATES_MAX).question.unwrap();
                if (ratio(next) - ratio(expected)).abs() > 1e-12 {
                    return Err(format!("asks {next}, by the ratio it is {expected}"));
                }
                let no = graph.answers(&node, next, &graph.questions[next]).last().unwrap();
                node = no;
            }
            Ok(())
        },
    )
    .unwrap();
}

fn text(id: &str) -> String {
    let file = format!("../demo-data/{id}/pack.toml");
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap()
}

fn vehicles() -> impl Iterator<Item = (&'static str, Vehicle)> {
    VEHICLES.into_iter().map(|id| (id, vehicle(&text(id))))
}

/// Owners of the three vehicles, each with one cause of each fault, who see what that cause shows
/// likeliest, do what they are told and say whether it helped: they all come to it, most of them at
/// once.
#[test]
fn an_owner_whose_cause_is_known_is_led_to_it() {
    let (mut owners, mut at_once) = (0, 0);
    for (id, vehicle) in vehicles() {
        for fault in &vehicle.faults {
            for cause in 0..fault.causes.len() {
                let mut engine = Engine::in_memory("en").unwrap();
                engine.add_pack(&text(id), id, &at(0)).unwrap();
                let wrong = led(&mut engine, fault, cause);
                if wrong > 0 {
                    eprintln!(
                        "{id}: {} {}: {wrong} others first",
                        fault.id, fault.causes[cause].id
                    );
                }
                owners += 1;
                at_once += usize::from(wrong == 0);
            }
        }
    }
    eprintln!("{owners} owners, {at_once} led to their cause at once");
    assert!(owners > 300 && at_once * 10 > owners * 9, "{at_once} of {owners}");
}

/// What is believed of the vehicle may be wrong in every way: that costs time, and hides no cause.
#[test]
fn no_wrong_belief_keeps_an_owner_from_the_cause() {
    let mut dice = numbers();
    let (mut told, mut astray) = (0, 0);
    for (id, vehicle) in vehicles() {
        for fault in &vehicle.faults {
            let asked = fault.questions.iter().flat_map(|one| &one.answers);
            let known = asked.flat_map(|answer| &answer.known);
            let unless = fault.causes.iter().flat_map(|cause| &cause.unless);
            let literals: Vec<_> = known.chain(unless).flatten().collect();
            for cause in 0..fault.causes.len() {
                let mut engine = Engine::in_memory("en").unwrap();
                engine.add_pack(&text(id), id, &at(0)).unwrap();
                for literal in &literals {
                    let variable = &vehicle.variables[literal.variable];
                    let names = variable.names_of(variable.all);
                    if dice().is_multiple_of(2) {
                        let name = &names[usize::from(dice()) % names.len()];
                        engine.report(&variable.id, name, &at(1)).unwrap();
                        told += 1;
                    }
                }
                astray += usize::from(led(&mut engine, fault, cause) > 0);
            }
        }
    }
    eprintln!("{told} beliefs drawn; {astray} owners were told of another cause first");
    assert!(told > 1_000 && astray > 50);
}

/// Answers as a cause has it until it is found; how many other causes were named before.
fn led(engine: &mut Engine, fault: &Fault, cause: usize) -> usize {
    let own = format!("cause.{}", fault.causes[cause].id);
    let mut wrong = 0;
    for _ in 0..=fault.questions.len() + fault.causes.len() {
        let page = engine.fault(&fault.id, &at(2)).unwrap();
        let (asked, answer) = match (&page.question, &page.found) {
            (Some(row), _) => {
                let asked = fault.questions.iter().find(|one| one.id == row.id).unwrap();
                let chance = |at: &usize| asked.answers[*at].chance[cause];
                let all = 0..asked.answers.len();
                let seen = all.rev().max_by(|one, other| chance(one).total_cmp(&chance(other)));
                (row.id.clone(), asked.answers[seen.unwrap()].id.clone())
            }
            (None, Some(found)) if found.id == own => return wrong,
            (None, Some(found)) => {
                wrong += 1;
                (found.id.clone(), "remains".to_owned())
            }
            (None, None) => break,
        };
        engine.answer_fault(&fault.id, &asked, &answer, &at(2)).unwrap();
    }
    panic!("{}: {own} is not found", fault.id)
}

/// The next line of a page that is read from top to bottom until the cause is known: a page cannot
/// know what an answer made needless.
fn page(graph: &Graph, node: &Node) -> Option<usize> {
    printed(graph, node)?;
    (0..graph.questions.len()).find(|at| node.asked & (1 << at) == 0)
}

/// The same as [`Graph::expected_s`], for a reader who ticks off each line.
fn read_s(graph: &Graph, node: &Node) -> f64 {
    let Some(at) = page(graph, node) else { return 0.0 };
    let question = &graph.questions[at];
    let ticked = |next: Node| read_s(graph, &Node { asked: next.asked | 1 << at, ..next });
    let total = node.total();
    let rest = graph.answers(node, at, question);
    let rest = rest.map(|next| next.total() / total * ticked(next));
    graph.time_s(node, question) + rest.sum::<f64>()
}

/// The expected time by the search, by the greedy rule, by a list in its order without what an
/// answer made needless, and by one that is read line by line: for each fault of each vehicle with
/// nothing known. The last column is the search with what is known on the vehicle's invented morning.
#[test]
fn the_search_is_never_slower_than_a_printed_order_and_saves_what_the_table_says() {
    let mut table =
        String::from("Expected time to the cause, from where one is at home. Unit: s.\n");
    table += "search | greedy | skipped | printed | saved | known | fault\n";
    let mut sums = [0.0; 5];
    for (id, vehicle) in vehicles() {
        let engine = demo_of(id);
        for fault in &vehicle.faults {
            let graph = fault.graph(&vehicle.walks);
            let start = Node { weights: fault.weights(), asked: 0, zone: vehicle.home };
            let found = plan(&graph, &start, STATES_MAX);
            assert!(found.gap_s.to_bits() == 0, "{id}: {}: not proven", fault.id);
            let hasty = graph.expected_s(&start, &|node| greedy(&graph, node));
            let list = graph.expected_s(&start, &|node| printed(&graph, node));
            let read = read_s(&graph, &start);
            let known = f64::from(engine.fault(&fault.id, &at(0)).unwrap().expected_s);
            assert!(found.expected_s <= list.min(hasty) + 1e-9, "{id}: {}", fault.id);
            assert!(list <= read + 1e-9, "{id}: {}", fault.id);
            // Room for a fault of twice its size, whatever was known.
            assert!(plan(&graph, &start, STATES_MAX / 2) == found, "{id}: {}", fault.id);
            let row = [found.expected_s, hasty, list, read, known];
            sums.iter_mut().zip(row).for_each(|(sum, one)| *sum += one);
            line(&mut table, row, &format!("{id}: {}", fault.id));
        }
    }
    line(&mut table, sums, "all together");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("data/fault_order.txt");
    if std::env::var_os("UPDATE_GOLDEN").is_some() {
        std::fs::write(&path, &table).unwrap();
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == table, "fault_order.txt differs; found:\n{table}");
}

fn line(table: &mut String, [search, hasty, list, read, known]: [f64; 5], title: &str) {
    let saved = (1.0 - search / read) * 100.0;
    let _ = writeln!(
        table,
        "{search:6.0} | {hasty:6.0} | {list:7.0} | {read:7.0} | {saved:3.0} % | {known:5.0} | {title}"
    );
}
