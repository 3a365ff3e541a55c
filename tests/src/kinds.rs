//! Catalogues made up at random: small kinds whose rules tangle more than those of any real
//! vehicle, so that few fittings are enough to find what a planner gets wrong.

use std::fmt::Write as _;

use stowfast_core::Result;
use stowfast_core::catalogue::Catalogue;

use crate::choices::Choices;

/// For each kind, for each of its variables, how many settings it has.
type Shapes = Vec<Vec<usize>>;

/// A catalogue of a few made-up kinds, without words, and the text of its files.
///
/// # Errors
/// Where the catalogue's own check refuses what was drawn.
pub fn catalogue(choices: &mut Choices) -> Result<(Catalogue, String)> {
    read(&files(choices))
}

/// The same, where some rules and conditions ask for ages.
///
/// # Errors
/// Where the catalogue's own check refuses what was drawn.
pub fn timed(choices: &mut Choices) -> Result<(Catalogue, String)> {
    let files = files(choices);
    let aged = files.into_iter().map(|(path, text)| {
        let lines: Vec<_> = text.lines().map(|line| with_age(choices, line)).collect();
        let minutes = choices.between(1, 3);
        let run = if choices.once_in(2) { run(choices) } else { String::new() };
        let value = format!("[[value]]\nid = \"d_min\"\ndefault = {minutes}\nmin = 1\nmax = 9\n");
        (path, format!("{}\n{run}{value}source = \"made up\"\n", lines.join("\n")))
    });
    read(&aged.collect::<Vec<_>>())
}

/// Something that runs by itself and must not end alone, and what it does to the first variable.
fn run(choices: &mut Choices) -> String {
    let mut text =
        "[[variable]]\nid = \"run\"\nsettings = [\"off\", \"on\"]\nusual = \"off\"\n".to_owned();
    if !choices.once_in(4) {
        _ = writeln!(text, "look_s = {}", choices.between(1, 20));
    }
    let (begin_s, end_s) = (choices.between(1, 20), choices.between(1, 20));
    let to = choices.below(2);
    _ = writeln!(text, "[[move]]\nid = \"begin\"\nset = {{ run = \"on\" }}\nseconds = {begin_s}");
    _ = writeln!(text, "[[move]]\nid = \"end\"\nset = {{ run = \"off\", v0 = \"s{to}\" }}");
    _ = writeln!(text, "seconds = {end_s}\nattended = true");
    _ = writeln!(text, "before = [{{ own = \"run\", in = [\"on\"], held_for = \"d_min\" }}]");
    text
}

/// The same, where things run by themselves and must not end alone.
///
/// # Errors
/// Where the catalogue's own check refuses what was drawn.
pub fn attended(choices: &mut Choices) -> Result<(Catalogue, String)> {
    let files = files(choices);
    let running = files.into_iter().map(|(path, text)| {
        let minutes = choices.between(1, 2);
        let value = format!("[[value]]\nid = \"d_min\"\ndefault = {minutes}\nmin = 1\nmax = 9\n");
        (path, format!("{text}{}{value}source = \"made up\"\n", run(choices)))
    });
    read(&running.collect::<Vec<_>>())
}

/// A line of a kind, its first literal of one setting made an age, where it is a rule or a condition.
fn with_age(choices: &mut Choices, line: &str) -> String {
    let word = match line.split_once(" = [") {
        Some(("never", _)) => "not_yet_for",
        Some(("before", _)) => "held_for",
        _ => return line.to_owned(),
    };
    let literal = line.match_indices("\"] }").find(|(at, _)| {
        let own = line.get(..*at).and_then(|to| to.rsplit_once('{'));
        own.is_some_and(|(_, own)| !own.contains("\", \""))
    });
    match literal {
        Some((at, _)) if !choices.once_in(4) => {
            let (to, rest) = line.split_at(at.saturating_add("\"]".len()));
            format!("{to}, {word} = \"d_min\"{rest}")
        }
        _ => line.to_owned(),
    }
}

fn files(choices: &mut Choices) -> Vec<(String, String)> {
    let shapes: Shapes = (0..choices.between(2, 4))
        .map(|_| (0..choices.between(1, 2)).map(|_| choices.between(2, 3)).collect())
        .collect();
    let mut files = Vec::new();
    for kind in 0..shapes.len() {
        files.push((format!("kinds/k{kind}.toml"), text_of(choices, &shapes, kind)));
    }
    files
}

fn read(files: &[(String, String)]) -> Result<(Catalogue, String)> {
    let files: Vec<_> = files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect();
    let shown =
        files.iter().fold(String::new(), |all, (path, text)| format!("{all}# {path}\n{text}"));
    Ok((Catalogue::from_files(&files)?, shown))
}

fn text_of(choices: &mut Choices, shapes: &Shapes, kind: usize) -> String {
    let mut text = String::new();
    let own: &[usize] = shapes.get(kind).map_or(&[], Vec::as_slice);
    let given: Vec<bool> = own.iter().map(|_| choices.once_in(10)).collect();
    for ((number, settings), given) in own.iter().enumerate().zip(&given) {
        add_variable(choices, shapes, kind, &mut text, (number, *settings, *given));
    }
    for ((number, settings), given) in own.iter().enumerate().zip(&given) {
        for to in (0..*settings).filter(|_| !given) {
            if !choices.once_in(6) {
                add_move(choices, shapes, kind, &mut text, (number, to));
            }
        }
    }
    for number in 0..choices.between(0, 3) {
        add_clause(choices, shapes, kind, &mut text, number);
    }
    text
}

fn add_variable(
    choices: &mut Choices,
    shapes: &Shapes,
    kind: usize,
    text: &mut String,
    (number, settings, given): (usize, usize, bool),
) {
    let names: Vec<_> = (0..settings).map(|place| format!("\"s{place}\"")).collect();
    let mut line = |words: String| _ = writeln!(text, "{words}");
    line(format!("[[variable]]\nid = \"v{number}\"\nsettings = [{}]", names.join(", ")));
    line(format!("usual = \"s{}\"", choices.below(settings)));
    if choices.once_in(3) {
        line(format!("middle = \"s{}\"", choices.below(settings)));
    }
    if !choices.once_in(4) {
        line(format!("look_s = {}", choices.between(1, 20)));
        if choices.once_in(6) {
            line(format!("look_before = [{}]", literal(choices, shapes, kind, "all")));
        }
    }
    if given {
        line("given = true".to_owned());
    }
    if choices.once_in(3) {
        line("dont_care = true".to_owned());
    }
    if choices.once_in(5) {
        line(format!("spoilt_to = \"s{}\"\nspoilt_by = [\"*\"]", choices.below(settings)));
    }
}

fn add_move(
    choices: &mut Choices,
    shapes: &Shapes,
    kind: usize,
    text: &mut String,
    (number, to): (usize, usize),
) {
    let mut set = format!("v{number} = \"s{to}\"");
    let own: &[usize] = shapes.get(kind).map_or(&[], Vec::as_slice);
    let others = own.iter().enumerate().filter(|(other, _)| *other != number);
    for (other, settings) in others {
        if choices.once_in(6) {
            _ = write!(set, ", v{other} = \"s{}\"", choices.below(*settings));
        }
    }
    _ = writeln!(text, "[[move]]\nid = \"m{number}_{to}\"\nset = {{ {set} }}");
    _ = writeln!(text, "seconds = {}\nhazard = {}", choices.between(1, 20), choices.once_in(4));
    if choices.once_in(3) {
        _ = writeln!(text, "before = [{}]", literal(choices, shapes, kind, "all"));
    }
}

fn add_clause(
    choices: &mut Choices,
    shapes: &Shapes,
    kind: usize,
    text: &mut String,
    number: usize,
) {
    let severity = choices.one_of(&["danger", "damage", "nuisance"]).copied().unwrap_or("danger");
    let never: Vec<_> =
        (0..choices.between(1, 3)).map(|_| literal(choices, shapes, kind, "each")).collect();
    _ = writeln!(text, "[[clause]]\nid = \"c{number}\"\nseverity = \"{severity}\"");
    _ = writeln!(text, "never = [{}]\nsource = \"made up\"", never.join(", "));
}

/// A literal about a variable of this kind or, by the word `far`, of any kind.
fn literal(choices: &mut Choices, shapes: &Shapes, kind: usize, far: &str) -> String {
    let at = if choices.once_in(3) { kind } else { choices.below(shapes.len()) };
    let variables: &[usize] = shapes.get(at).map_or(&[], Vec::as_slice);
    let number = choices.below(variables.len());
    let settings = variables.get(number).copied().unwrap_or(2);
    let wanted = choices.below(settings);
    let more = settings > 2 && choices.once_in(3);
    let names: Vec<_> = (0..settings)
        .filter(|place| (*place == wanted) != more)
        .map(|place| format!("\"s{place}\""))
        .collect();
    let whose = if at == kind {
        format!("own = \"v{number}\"")
    } else {
        format!("{far} = \"k{at}.v{number}\"")
    };
    format!("{{ {whose}, in = [{}] }}", names.join(", "))
}
