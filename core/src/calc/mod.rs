//! Measurement: pure formulas, typed inputs in, a value with unit, uncertainty and findings out.
