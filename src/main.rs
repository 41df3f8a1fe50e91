//! standpipe
fn main() {}
