//! Cost per call of the fluid formulas and the tables, at points read from standard input.
//!
//! Each line: a name and its numbers (`psat T_K`, `mix T_K`, `density T_K p_Pa`, `ctl T_F rd60`). Prints one
//! JSON object, nanoseconds a call by name. `tests/coolprop/check.py` feeds it and times CoolProp at the same
//! points in the same run.

use std::hint::black_box;
use std::io::BufRead;
use std::time::Instant;

use farsiding_measure::calc::fluid::{self, Fluid, Mix};
use farsiding_measure::calc::{ctl, lines};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut points: Vec<(String, Vec<f64>)> = Vec::new();
    for line in std::io::stdin().lock().lines() {
        let line = line?;
        let mut words = line.split_whitespace();
        let Some(name) = words.next() else { continue };
        points.push((name.to_owned(), words.map(str::parse).collect::<Result<_, _>>()?));
    }
    let propane = Mix::pure(Fluid::Propane);
    let mix = Mix::new(&[(Fluid::Propane, 0.95), (Fluid::Ethane, 0.03), (Fluid::Isobutane, 0.02)])?;
    let mut report = serde_json::Map::new();
    let mut time = |name: &str, of: &str, call: &dyn Fn(&[f64]) -> f64| {
        let chosen: Vec<&[f64]> = points.iter().filter(|(n, _)| n == of).map(|(_, x)| &**x).collect();
        let start = Instant::now();
        for point in &chosen {
            black_box(call(black_box(point)));
        }
        let nanoseconds = start.elapsed().as_nanos() as f64 / chosen.len().max(1) as f64;
        report.insert(name.to_owned(), serde_json::json!(nanoseconds.round()));
    };
    time("psat", "psat", &|x| fluid::bubble(&propane, x[0]).map_or(0.0, |found| found.pascal));
    time("mix", "mix", &|x| fluid::bubble(&mix, x[0]).map_or(0.0, |found| found.pascal));
    time("density", "density", &|x| fluid::vapour_density(&propane, x[0], x[1]).unwrap_or(0.0));
    time("ctl", "ctl", &|x| ctl::table_24e(x[0], x[1]).unwrap_or(0.0));
    time("ctl_line", "ctl", &|x| {
        lines::answer("ctl", &format!("{{\"temp_f\":{},\"rd60\":{}}}", x[0], x[1])).len() as f64
    });
    time("residue_line", "psat", &|x| {
        let fahrenheit = x[0] * 1.8 - 459.67;
        let line = format!("{{\"temp_f\":{fahrenheit},\"psig\":1,\"elev_ft\":0,\"shell_gal\":33800}}");
        lines::answer("residue", &line).len() as f64
    });
    println!("{}", serde_json::Value::Object(report));
    Ok(())
}
