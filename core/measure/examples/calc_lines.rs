//! The script interface on standard input and output, without the product's own binary: for checks that feed
//! it from another language. `calc_lines NAME` answers lines, `calc_lines --list` prints the catalogue.

use std::io::{BufRead, Write};

use farsiding_measure::calc::lines;

fn main() -> std::io::Result<()> {
    let name = std::env::args().nth(1).unwrap_or_else(|| "--list".to_owned());
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    if name == "--list" {
        return out.write_all(lines::listing(farsiding_words::english).as_bytes());
    }
    for line in std::io::stdin().lock().lines() {
        writeln!(out, "{}", lines::answer(&name, &line?))?;
    }
    out.flush()
}
