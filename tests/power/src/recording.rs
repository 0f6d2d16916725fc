//! A SQLite file system that hands every call on to the usual one and writes down what changes files.
//!
//! It is registered as `recording`; a path in [`path`]'s form opens a database through it. Calls are
//! recorded only for folders that were [`start`]ed. Locks and shared memory go straight through: neither
//! outlives a power cut.

use std::collections::HashMap;
use std::ffi::{CStr, c_char, c_int, c_void};
use std::path::Path;
use std::sync::{Mutex, MutexGuard, OnceLock, PoisonError};

use rusqlite::ffi;

/// Something done to a file. Files go by their names without the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Operation {
    /// It was made, empty.
    Create(String),
    /// Bytes were written at an offset.
    Write(String, u64, Vec<u8>),
    /// It was cut to a length.
    Truncate(String, u64),
    /// It was synced.
    Sync(String),
    /// It was deleted; durably if the folder was synced for it.
    Delete(String, bool),
    /// Whoever used the database noted something.
    Mark(usize),
}

type Logs = HashMap<String, Vec<Operation>>;

fn logs() -> MutexGuard<'static, Logs> {
    static LOGS: OnceLock<Mutex<Logs>> = OnceLock::new();
    LOGS.get_or_init(Mutex::default).lock().unwrap_or_else(PoisonError::into_inner)
}

fn key(folder: &Path) -> String {
    folder.to_string_lossy().into_owned()
}

/// Begins to record what happens in a folder.
pub fn start(folder: &Path) {
    register();
    logs().insert(key(folder), Vec::new());
}

/// Notes something between two operations, such as what was acknowledged so far.
pub fn mark(folder: &Path, what: usize) {
    if let Some(log) = logs().get_mut(&key(folder)) {
        log.push(Operation::Mark(what));
    }
}

/// Ends recording and returns what happened.
pub fn stop(folder: &Path) -> Vec<Operation> {
    logs().remove(&key(folder)).unwrap_or_default()
}

/// A file in a folder, as a database path that goes through the recording file system.
pub fn path(folder: &Path, file: &str) -> String {
    format!("file:{}/{file}?vfs=recording", folder.display())
}

fn note(path: &str, operation: impl FnOnce(String) -> Operation) {
    let Some((folder, file)) = path.rsplit_once('/') else { return };
    if let Some(log) = logs().get_mut(folder) {
        log.push(operation(file.to_owned()));
    }
}

/// An open file: SQLite's part first, then ours; the usual file system's own lies behind it in memory.
#[repr(C)]
struct Recorded {
    base: ffi::sqlite3_file,
    name: *mut String,
}

static mut METHODS: Option<ffi::sqlite3_io_methods> = None;

/// The usual file system.
fn usual() -> *mut ffi::sqlite3_vfs {
    // SAFETY: SQLite returns the default file system, which is never unregistered here.
    unsafe { ffi::sqlite3_vfs_find(c"unix".as_ptr()) }
}

/// Registers the file system, once.
fn register() {
    static DONE: OnceLock<()> = OnceLock::new();
    DONE.get_or_init(|| {
        // SAFETY: initialising twice is allowed; what is registered is leaked and so lives for ever, and
        // METHODS is written here alone, before any file can be open.
        unsafe {
            ffi::sqlite3_initialize();
            let usual = usual();
            let mut vfs = *usual;
            vfs.pNext = std::ptr::null_mut();
            vfs.zName = c"recording".as_ptr();
            vfs.iVersion = 2;
            vfs.szOsFile = (*usual).szOsFile + size_of::<Recorded>() as c_int;
            vfs.xOpen = Some(x_open);
            vfs.xDelete = Some(x_delete);
            vfs.xAccess = Some(x_access);
            vfs.xFullPathname = Some(x_full_pathname);
            METHODS = Some(methods());
            ffi::sqlite3_vfs_register(Box::leak(Box::new(vfs)), 0);
        }
    });
}

fn methods() -> ffi::sqlite3_io_methods {
    ffi::sqlite3_io_methods {
        iVersion: 2, // no memory mapping: every byte read or written passes by here
        xClose: Some(x_close),
        xRead: Some(x_read),
        xWrite: Some(x_write),
        xTruncate: Some(x_truncate),
        xSync: Some(x_sync),
        xFileSize: Some(x_file_size),
        xLock: Some(x_lock),
        xUnlock: Some(x_unlock),
        xCheckReservedLock: Some(x_check_reserved_lock),
        xFileControl: Some(x_file_control),
        xSectorSize: Some(x_sector_size),
        xDeviceCharacteristics: Some(x_device_characteristics),
        xShmMap: Some(x_shm_map),
        xShmLock: Some(x_shm_lock),
        xShmBarrier: Some(x_shm_barrier),
        xShmUnmap: Some(x_shm_unmap),
        xFetch: None,
        xUnfetch: None,
    }
}

/// The usual file system's part of an open file.
///
/// # Safety
/// `file` must have been given to `x_open`.
unsafe fn behind(file: *mut ffi::sqlite3_file) -> *mut ffi::sqlite3_file {
    // SAFETY: SQLite reserved szOsFile bytes, of which the usual file system's begin behind ours.
    unsafe { file.cast::<u8>().add(size_of::<Recorded>()).cast() }
}

/// # Safety
/// As for [`behind`].
unsafe fn note_of(file: *mut ffi::sqlite3_file, operation: impl FnOnce(String) -> Operation) {
    // SAFETY: `x_open` set the name, `x_close` takes it away with the file.
    if let Some(name) = unsafe { (*file.cast::<Recorded>()).name.as_ref() } {
        note(name, operation);
    }
}

unsafe extern "C" fn x_open(
    _: *mut ffi::sqlite3_vfs,
    name: ffi::sqlite3_filename,
    file: *mut ffi::sqlite3_file,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    // SAFETY: SQLite gives a file of szOsFile bytes and a name that is null or ends in a zero byte.
    unsafe {
        let recorded = file.cast::<Recorded>();
        (*recorded).base.pMethods = std::ptr::null();
        (*recorded).name = std::ptr::null_mut();
        let text = (!name.is_null()).then(|| CStr::from_ptr(name).to_string_lossy().into_owned());
        let new = text.as_ref().is_some_and(|text| !Path::new(text).exists());
        let real = behind(file);
        (*real).pMethods = std::ptr::null();
        let Some(open) = (*usual()).xOpen else { return ffi::SQLITE_ERROR };
        let outcome = open(usual(), name, real, flags, out);
        if !(*real).pMethods.is_null() {
            #[allow(static_mut_refs, reason = "written once, before any file can be open")]
            let methods = METHODS.as_ref().map_or(std::ptr::null(), std::ptr::from_ref);
            (*recorded).base.pMethods = methods;
            if let Some(text) = text {
                if new && outcome == ffi::SQLITE_OK {
                    note(&text, Operation::Create);
                }
                (*recorded).name = Box::into_raw(Box::new(text));
            }
        }
        outcome
    }
}

unsafe extern "C" fn x_delete(_: *mut ffi::sqlite3_vfs, name: *const c_char, sync: c_int) -> c_int {
    // SAFETY: the name ends in a zero byte; the call goes on as it came.
    unsafe {
        let Some(delete) = (*usual()).xDelete else { return ffi::SQLITE_ERROR };
        let outcome = delete(usual(), name, sync);
        if outcome == ffi::SQLITE_OK {
            note(&CStr::from_ptr(name).to_string_lossy(), |file| Operation::Delete(file, sync != 0));
        }
        outcome
    }
}

unsafe extern "C" fn x_access(
    _: *mut ffi::sqlite3_vfs,
    name: *const c_char,
    flags: c_int,
    out: *mut c_int,
) -> c_int {
    // SAFETY: the call goes on as it came, with the file system it is meant for.
    unsafe { (*usual()).xAccess.map_or(ffi::SQLITE_ERROR, |access| access(usual(), name, flags, out)) }
}

unsafe extern "C" fn x_full_pathname(
    _: *mut ffi::sqlite3_vfs,
    name: *const c_char,
    length: c_int,
    out: *mut c_char,
) -> c_int {
    // SAFETY: the call goes on as it came, with the file system it is meant for.
    unsafe { (*usual()).xFullPathname.map_or(ffi::SQLITE_ERROR, |full| full(usual(), name, length, out)) }
}

unsafe extern "C" fn x_close(file: *mut ffi::sqlite3_file) -> c_int {
    // SAFETY: the name was made by `x_open` and is not used any more.
    unsafe {
        let recorded = file.cast::<Recorded>();
        if !(*recorded).name.is_null() {
            drop(Box::from_raw((*recorded).name));
            (*recorded).name = std::ptr::null_mut();
        }
        let real = behind(file);
        (*(*real).pMethods).xClose.map_or(ffi::SQLITE_ERROR, |close| close(real))
    }
}

unsafe extern "C" fn x_write(
    file: *mut ffi::sqlite3_file,
    bytes: *const c_void,
    length: c_int,
    offset: ffi::sqlite3_int64,
) -> c_int {
    // SAFETY: SQLite gives `length` readable bytes.
    unsafe {
        let real = behind(file);
        let write = (*(*real).pMethods).xWrite;
        let outcome = write.map_or(ffi::SQLITE_ERROR, |write| write(real, bytes, length, offset));
        if outcome == ffi::SQLITE_OK {
            let copy =
                std::slice::from_raw_parts(bytes.cast::<u8>(), length.unsigned_abs() as usize).to_vec();
            note_of(file, |name| Operation::Write(name, offset.cast_unsigned(), copy));
        }
        outcome
    }
}

unsafe extern "C" fn x_truncate(file: *mut ffi::sqlite3_file, length: ffi::sqlite3_int64) -> c_int {
    // SAFETY: the call goes on as it came.
    unsafe {
        let real = behind(file);
        let truncate = (*(*real).pMethods).xTruncate;
        let outcome = truncate.map_or(ffi::SQLITE_ERROR, |truncate| truncate(real, length));
        if outcome == ffi::SQLITE_OK {
            note_of(file, |name| Operation::Truncate(name, length.cast_unsigned()));
        }
        outcome
    }
}

unsafe extern "C" fn x_sync(file: *mut ffi::sqlite3_file, flags: c_int) -> c_int {
    // SAFETY: the call goes on as it came.
    unsafe {
        let real = behind(file);
        let outcome = (*(*real).pMethods).xSync.map_or(ffi::SQLITE_ERROR, |sync| sync(real, flags));
        if outcome == ffi::SQLITE_OK {
            note_of(file, Operation::Sync);
        }
        outcome
    }
}

/// Calls that change no file go straight on.
macro_rules! hand_on {
    ($($ours:ident => $theirs:ident($($argument:ident: $kind:ty),*);)*) => { $(
        unsafe extern "C" fn $ours(file: *mut ffi::sqlite3_file $(, $argument: $kind)*) -> c_int {
            // SAFETY: the call goes on as it came.
            unsafe {
                let real = behind(file);
                (*(*real).pMethods).$theirs.map_or(ffi::SQLITE_ERROR, |call| call(real $(, $argument)*))
            }
        }
    )* };
}

hand_on! {
    x_read => xRead(bytes: *mut c_void, length: c_int, offset: ffi::sqlite3_int64);
    x_file_size => xFileSize(out: *mut ffi::sqlite3_int64);
    x_lock => xLock(level: c_int);
    x_unlock => xUnlock(level: c_int);
    x_check_reserved_lock => xCheckReservedLock(out: *mut c_int);
    x_file_control => xFileControl(what: c_int, value: *mut c_void);
    x_sector_size => xSectorSize();
    x_device_characteristics => xDeviceCharacteristics();
    x_shm_lock => xShmLock(offset: c_int, number: c_int, flags: c_int);
    x_shm_unmap => xShmUnmap(delete: c_int);
}

unsafe extern "C" fn x_shm_map(
    file: *mut ffi::sqlite3_file,
    page: c_int,
    size: c_int,
    extend: c_int,
    out: *mut *mut c_void,
) -> c_int {
    // SAFETY: the call goes on as it came.
    unsafe {
        let real = behind(file);
        let map = (*(*real).pMethods).xShmMap;
        map.map_or(ffi::SQLITE_ERROR, |map| map(real, page, size, extend, out))
    }
}

unsafe extern "C" fn x_shm_barrier(file: *mut ffi::sqlite3_file) {
    // SAFETY: the call goes on as it came.
    unsafe {
        let real = behind(file);
        if let Some(barrier) = (*(*real).pMethods).xShmBarrier {
            barrier(real);
        }
    }
}
