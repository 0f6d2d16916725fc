//! `farsiding calc`: reads JSON lines from standard input, computes a formula for each and writes the answers
//! to standard output.
//!
//! The formulas and the shape of a line belong to the core (`calc::lines`). This file only handles the
//! stream.

use std::io::{self, BufRead, Write};

use clap::Args;
use farsiding_core::calc::lines;
use farsiding_host::CommandOutput;
use farsiding_words::{Language, Words};

use super::packet::read_language;
use crate::outcome::{CommandError, ErrorKind};

#[derive(Debug, Args)]
pub(crate) struct CalcArguments {
    /// The name of the formula; --list shows all names.
    #[arg(long, value_name = "NAME", required_unless_present = "list")]
    formula: Option<String>,
    /// List the formulas with their inputs, sources and what makes them wrong.
    #[arg(long)]
    list: bool,
    /// Print the list as JSON. Answers are always JSON.
    #[arg(long)]
    json: bool,
    /// The language of the list and of what answers say: en-US, es-MX or fr-CA; English when left out.
    #[arg(long, value_name = "TAG", value_parser = read_language)]
    lang: Option<Language>,
}

/// The longest line that is read, in bytes. A longer line is skipped and answered with an error.
const LONGEST_LINE: u64 = 1024 * 1024;

/// Runs `farsiding calc`.
pub(crate) fn run(arguments: &CalcArguments) -> Result<CommandOutput, CommandError> {
    let words = Words::of(arguments.lang.unwrap_or(Language::ENGLISH));
    if arguments.list {
        let list = match arguments.json {
            true => words.line(&lines::listing_json().to_string()),
            false => lines::listing(|message| words.text(message)),
        };
        return Ok(CommandOutput::text(list));
    }
    let name = arguments.formula.as_deref().unwrap_or_default();
    let known: Vec<&str> = lines::catalogue().iter().map(|formula| formula.name).collect();
    let unknown = !known.contains(&name);
    let message = format!("\"{name}\" is not a formula; known: {}", known.join(", "));
    if unknown {
        // A person sees the error at once on standard error; a script still gets an answer to every line.
        writeln!(std::io::stderr(), "farsiding: {message}")?;
    }
    match answer_lines((name, words), &mut std::io::stdin().lock(), &mut std::io::stdout().lock()) {
        Err(e) if e.kind() == std::io::ErrorKind::BrokenPipe => {}
        outcome => outcome?,
    }
    if unknown {
        Err(CommandError::new(ErrorKind::UnknownFormula, message))
    } else {
        Ok(CommandOutput::none())
    }
}

/// Answers every line until the input ends. Each answer is written and flushed before the next line is read.
///
/// # Errors
/// Returns the error of the input or output stream. A line that cannot be computed is answered with an error
/// object and is not an error of this function.
pub fn answer_lines(
    (formula, words): (&str, &Words),
    input: &mut dyn BufRead,
    output: &mut dyn Write,
) -> io::Result<()> {
    let mut line = Vec::new();
    loop {
        line.clear();
        let read = io::Read::take(&mut *input, LONGEST_LINE).read_until(b'\n', &mut line)?;
        if read == 0 {
            return Ok(());
        }
        if line.len() as u64 == LONGEST_LINE && line.last() != Some(&b'\n') {
            pass_over_line(input)?;
            line.truncate(0);
            line.extend_from_slice(b"(a line of more than a million bytes)");
        }
        let text = String::from_utf8_lossy(&line);
        if text.trim().is_empty() {
            continue;
        }
        writeln!(output, "{}", words.line(&lines::answer(formula, text.trim())))?;
        output.flush()?;
    }
}

fn pass_over_line(input: &mut dyn BufRead) -> io::Result<()> {
    loop {
        let buffer = input.fill_buf()?;
        if buffer.is_empty() {
            return Ok(());
        }
        match buffer.iter().position(|b| *b == b'\n') {
            Some(at) => {
                input.consume(at + 1);
                return Ok(());
            }
            None => {
                let all = buffer.len();
                input.consume(all);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_answer_rests_on_is_said_in_the_language_asked_for() {
        let line = r#"{"temp_f":80,"rd60":0.51,"gross_gal":1000}"#;
        let in_language = |tag: &str| {
            let words = Words::of(read_language(tag).unwrap_or(Language::ENGLISH));
            let mut output = Vec::new();
            assert!(answer_lines(("net_volume", words), &mut line.as_bytes(), &mut output).is_ok());
            String::from_utf8_lossy(&output).into_owned()
        };
        let (english, french) = (in_language("en-US"), in_language("fr-CA"));
        assert!(english.contains("base 15.0 °C") || english.contains("base 15 °C"), "{english}");
        assert!(french.contains("gallons nets") || french.contains("Le ± repose"), "{french}");
        assert_ne!(english, french);
    }

    #[test]
    fn a_bad_line_never_stops_the_stream() {
        let good = r#"{"temp_f":80,"rd60":0.51}"#;
        let long = "x".repeat(1_500_000);
        let input = format!("{good}\nnot json\n\n{long}\n\u{0}\n{good}");
        let mut output = Vec::new();
        let outcome = answer_lines(("ctl", Words::english()), &mut input.as_bytes(), &mut output);
        let answers = String::from_utf8_lossy(&output).into_owned();
        assert!(outcome.is_ok());
        let verdicts: Vec<bool> = answers.lines().map(|line| line.contains("\"ok\":true")).collect();
        assert_eq!(verdicts, [true, false, false, false, true], "{answers}");
        assert!(answers.contains("0.96709"), "MPMS 11.2.4, Table 24E, 80 F at 0.51: {answers}");
    }
}
