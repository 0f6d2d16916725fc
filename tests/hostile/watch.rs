//! A case under watch: how long it takes, what memory it takes, whether it panics; and where it is written when
//! it does what it must not.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Mutex, MutexGuard, Once, PoisonError};
use std::time::{Duration, Instant};

use farsiding_core::ids::Digest;
use peak_alloc::PeakAlloc;

#[global_allocator]
static MEMORY: PeakAlloc = PeakAlloc;

/// What one case may take, in bytes.
pub const MOST_MEMORY: usize = 64 * 1024 * 1024;
/// How long one case may take, in a build without optimisation on a busy machine.
const PATIENCE: Duration = Duration::from_secs(5);
/// When a case is taken for hung.
const HUNG: Duration = Duration::from_secs(30);

/// One case at a time: memory is counted for the whole process.
static ALONE: Mutex<()> = Mutex::new(());
static NOW: Mutex<Option<(Instant, &'static str, Vec<u8>)>> = Mutex::new(None);

fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

std::thread_local! {
    static UNDER_WATCH: std::cell::Cell<bool> = const { std::cell::Cell::new(false) };
    static LAST_PANIC: std::cell::RefCell<String> = const { std::cell::RefCell::new(String::new()) };
}

/// What the watch must be set up with, once.
fn begin() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        // Panics of a library that the core catches are no news; those that end a case are told with it.
        let usual = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            if UNDER_WATCH.get() {
                LAST_PANIC.with(|last| *last.borrow_mut() = panic.to_string());
            } else {
                usual(panic);
            }
        }));
        std::thread::spawn(|| {
            loop {
                std::thread::sleep(Duration::from_millis(500));
                if let Some((began, kind, bytes)) = &*locked(&NOW)
                    && began.elapsed() > HUNG
                {
                    println!("{kind} hangs; {}", written(kind, bytes));
                    std::process::exit(101);
                }
            }
        });
    });
}

/// Writes a case down; where.
fn written(kind: &str, bytes: &[u8]) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../target/hostile");
    std::fs::create_dir_all(&folder).unwrap();
    let name = Digest::of(bytes).to_string();
    let file = folder.join(format!("{kind}-{}.bin", &name[..16]));
    std::fs::write(&file, bytes).unwrap();
    format!("the case is in {}; once mended it belongs into tests/hostile/corpus/{kind}", file.display())
}

/// What a case took.
#[derive(Clone, Copy, Default, Debug)]
pub struct Took {
    pub time: Duration,
    pub memory: usize,
}

impl Took {
    pub fn or_more(self, other: Took) -> Took {
        Took { time: self.time.max(other.time), memory: self.memory.max(other.memory) }
    }
}

/// Runs a case.
pub fn watched(kind: &'static str, bytes: &[u8], case: impl FnOnce(&[u8])) -> Took {
    begin();
    let _alone = locked(&ALONE);
    *locked(&NOW) = Some((Instant::now(), kind, bytes.to_vec()));
    let before = MEMORY.current_usage();
    MEMORY.reset_peak_usage();
    let began = Instant::now();
    UNDER_WATCH.set(true);
    let outcome = catch_unwind(AssertUnwindSafe(|| case(bytes)));
    UNDER_WATCH.set(false);
    let took = Took { time: began.elapsed(), memory: MEMORY.peak_usage().saturating_sub(before) };
    *locked(&NOW) = None;
    let why = match outcome {
        Err(_) => LAST_PANIC.with(|last| last.borrow().clone()),
        Ok(()) if took.time > PATIENCE => format!("it took {:?}", took.time),
        Ok(()) if took.memory > MOST_MEMORY => format!("it took {} MB of memory", took.memory >> 20),
        Ok(()) => return took,
    };
    panic!("{kind}: {why}\n{}", written(kind, bytes));
}
