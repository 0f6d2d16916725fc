# @generated from the Rust API by bindings/generate. Do not edit.

# Common helper code.
#
# Ideally this would live in a separate .py file where it can be unittested etc
# in isolation, and perhaps even published as a re-useable package.
#
# However, it's important that the details of how this helper code works (e.g. the
# way that different builtin types are passed across the FFI) exactly match what's
# expected by the rust code on the other side of the interface. In practice right
# now that means coming from the exact some version of `uniffi` that was used to
# compile the rust component. The easiest way to ensure this is to bundle the Python
# helpers directly inline like we're doing here.

from __future__ import annotations
import os
import sys
import ctypes
from dataclasses import dataclass
import enum
import struct
import contextlib
import datetime
import threading
import itertools
import traceback
import typing
import asyncio
import platform


# Used for default argument values
_DEFAULT = object() # type: typing.Any


class _UniffiRustBuffer(ctypes.Structure):
    _fields_ = [
        ("capacity", ctypes.c_uint64),
        ("len", ctypes.c_uint64),
        ("data", ctypes.POINTER(ctypes.c_char)),
    ]

    @staticmethod
    def default():
        return _UniffiRustBuffer(0, 0, None)

    @staticmethod
    def alloc(size):
        return _uniffi_rust_call(_UniffiLib.ffi_farsiding_bindings_rustbuffer_alloc, size)

    @staticmethod
    def reserve(rbuf, additional):
        return _uniffi_rust_call(_UniffiLib.ffi_farsiding_bindings_rustbuffer_reserve, rbuf, additional)

    def free(self):
        return _uniffi_rust_call(_UniffiLib.ffi_farsiding_bindings_rustbuffer_free, self)

    def __str__(self):
        return "_UniffiRustBuffer(capacity={}, len={}, data={})".format(
            self.capacity,
            self.len,
            self.data[0:self.len]
        )

    @contextlib.contextmanager
    def alloc_with_builder(*args):
        """Context-manger to allocate a buffer using a _UniffiRustBufferBuilder.

        The allocated buffer will be automatically freed if an error occurs, ensuring that
        we don't accidentally leak it.
        """
        builder = _UniffiRustBufferBuilder()
        try:
            yield builder
        except:
            builder.discard()
            raise

    @contextlib.contextmanager
    def consume_with_stream(self):
        """Context-manager to consume a buffer using a _UniffiRustBufferStream.

        The _UniffiRustBuffer will be freed once the context-manager exits, ensuring that we don't
        leak it even if an error occurs.
        """
        try:
            s = _UniffiRustBufferStream.from_rust_buffer(self)
            yield s
            if s.remaining() != 0:
                raise RuntimeError(f"junk data left in buffer at end of consume_with_stream {s.remaining()}")
        finally:
            self.free()

    @contextlib.contextmanager
    def read_with_stream(self):
        """Context-manager to read a buffer using a _UniffiRustBufferStream.

        This is like consume_with_stream, but doesn't free the buffer afterwards.
        It should only be used with borrowed `_UniffiRustBuffer` data.
        """
        s = _UniffiRustBufferStream.from_rust_buffer(self)
        yield s
        if s.remaining() != 0:
            raise RuntimeError(f"junk data left in buffer at end of read_with_stream {s.remaining()}")

class _UniffiForeignBytes(ctypes.Structure):
    _fields_ = [
        ("len", ctypes.c_int32),
        ("data", ctypes.POINTER(ctypes.c_char)),
    ]

    def __str__(self):
        return "_UniffiForeignBytes(len={}, data={})".format(self.len, self.data[0:self.len])


class _UniffiRustBufferStream:
    """
    Helper for structured reading of bytes from a _UniffiRustBuffer
    """

    def __init__(self, data, len):
        self.data = data
        self.len = len
        self.offset = 0

    @classmethod
    def from_rust_buffer(cls, buf):
        return cls(buf.data, buf.len)

    def remaining(self):
        return self.len - self.offset

    def _unpack_from(self, size, format):
        if self.offset + size > self.len:
            raise InternalError("read past end of rust buffer")
        value = struct.unpack(format, self.data[self.offset:self.offset+size])[0]
        self.offset += size
        return value

    def read(self, size):
        if self.offset + size > self.len:
            raise InternalError("read past end of rust buffer")
        data = self.data[self.offset:self.offset+size]
        self.offset += size
        return data

    def read_i8(self):
        return self._unpack_from(1, ">b")

    def read_u8(self):
        return self._unpack_from(1, ">B")

    def read_i16(self):
        return self._unpack_from(2, ">h")

    def read_u16(self):
        return self._unpack_from(2, ">H")

    def read_i32(self):
        return self._unpack_from(4, ">i")

    def read_u32(self):
        return self._unpack_from(4, ">I")

    def read_i64(self):
        return self._unpack_from(8, ">q")

    def read_u64(self):
        return self._unpack_from(8, ">Q")

    def read_float(self):
        v = self._unpack_from(4, ">f")
        return v

    def read_double(self):
        return self._unpack_from(8, ">d")

class _UniffiRustBufferBuilder:
    """
    Helper for structured writing of bytes into a _UniffiRustBuffer.
    """

    def __init__(self):
        self.rbuf = _UniffiRustBuffer.alloc(16)
        self.rbuf.len = 0

    def finalize(self):
        rbuf = self.rbuf
        self.rbuf = None
        return rbuf

    def discard(self):
        if self.rbuf is not None:
            rbuf = self.finalize()
            rbuf.free()

    @contextlib.contextmanager
    def _reserve(self, num_bytes):
        if self.rbuf.len + num_bytes > self.rbuf.capacity:
            self.rbuf = _UniffiRustBuffer.reserve(self.rbuf, num_bytes)
        yield None
        self.rbuf.len += num_bytes

    def _pack_into(self, size, format, value):
        with self._reserve(size):
            # XXX TODO: I feel like I should be able to use `struct.pack_into` here but can't figure it out.
            for i, byte in enumerate(struct.pack(format, value)):
                self.rbuf.data[self.rbuf.len + i] = byte

    def write(self, value):
        with self._reserve(len(value)):
            for i, byte in enumerate(value):
                self.rbuf.data[self.rbuf.len + i] = byte

    def write_i8(self, v):
        self._pack_into(1, ">b", v)

    def write_u8(self, v):
        self._pack_into(1, ">B", v)

    def write_i16(self, v):
        self._pack_into(2, ">h", v)

    def write_u16(self, v):
        self._pack_into(2, ">H", v)

    def write_i32(self, v):
        self._pack_into(4, ">i", v)

    def write_u32(self, v):
        self._pack_into(4, ">I", v)

    def write_i64(self, v):
        self._pack_into(8, ">q", v)

    def write_u64(self, v):
        self._pack_into(8, ">Q", v)

    def write_float(self, v):
        self._pack_into(4, ">f", v)

    def write_double(self, v):
        self._pack_into(8, ">d", v)

    def write_c_size_t(self, v):
        self._pack_into(ctypes.sizeof(ctypes.c_size_t) , "@N", v)
# A handful of classes and functions to support the generated data structures.
# This would be a good candidate for isolating in its own ffi-support lib.

class InternalError(Exception):
    pass

class _UniffiRustCallStatus(ctypes.Structure):
    """
    Error runtime.
    """
    _fields_ = [
        ("code", ctypes.c_int8),
        ("error_buf", _UniffiRustBuffer),
    ]

    # These match the values from the uniffi::rustcalls module
    CALL_SUCCESS = 0
    CALL_ERROR = 1
    CALL_UNEXPECTED_ERROR = 2

    @staticmethod
    def default():
        return _UniffiRustCallStatus(code=_UniffiRustCallStatus.CALL_SUCCESS, error_buf=_UniffiRustBuffer.default())

    def __str__(self):
        if self.code == _UniffiRustCallStatus.CALL_SUCCESS:
            return "_UniffiRustCallStatus(CALL_SUCCESS)"
        elif self.code == _UniffiRustCallStatus.CALL_ERROR:
            return "_UniffiRustCallStatus(CALL_ERROR)"
        elif self.code == _UniffiRustCallStatus.CALL_UNEXPECTED_ERROR:
            return "_UniffiRustCallStatus(CALL_UNEXPECTED_ERROR)"
        else:
            return "_UniffiRustCallStatus(<invalid code>)"

def _uniffi_rust_call(fn, *args):
    # Call a rust function
    return _uniffi_rust_call_with_error(None, fn, *args)

def _uniffi_rust_call_with_error(error_ffi_converter, fn, *args):
    # Call a rust function and handle any errors
    #
    # This function is used for rust calls that return Result<> and therefore can set the CALL_ERROR status code.
    # error_ffi_converter must be set to the _UniffiConverter for the error class that corresponds to the result.
    call_status = _UniffiRustCallStatus.default()

    args_with_error = args + (ctypes.byref(call_status),)
    result = fn(*args_with_error)
    _uniffi_check_call_status(error_ffi_converter, call_status)
    return result

def _uniffi_check_call_status(error_ffi_converter, call_status):
    if call_status.code == _UniffiRustCallStatus.CALL_SUCCESS:
        pass
    elif call_status.code == _UniffiRustCallStatus.CALL_ERROR:
        if error_ffi_converter is None:
            call_status.error_buf.free()
            raise InternalError("_uniffi_rust_call_with_error: CALL_ERROR, but error_ffi_converter is None")
        else:
            raise error_ffi_converter.lift(call_status.error_buf)
    elif call_status.code == _UniffiRustCallStatus.CALL_UNEXPECTED_ERROR:
        # When the rust code sees a panic, it tries to construct a _UniffiRustBuffer
        # with the message.  But if that code panics, then it just sends back
        # an empty buffer.
        if call_status.error_buf.len > 0:
            msg = _UniffiFfiConverterString.lift(call_status.error_buf)
        else:
            msg = "Unknown rust panic"
        raise InternalError(msg)
    else:
        raise InternalError("Invalid _UniffiRustCallStatus code: {}".format(
            call_status.code))

def _uniffi_trait_interface_call(call_status, make_call, write_return_value):
    try:
        return write_return_value(make_call())
    except Exception as e:
        call_status.code = _UniffiRustCallStatus.CALL_UNEXPECTED_ERROR
        call_status.error_buf = _UniffiFfiConverterString.lower(repr(e))

def _uniffi_trait_interface_call_with_error(call_status, make_call, write_return_value, error_type, lower_error):
    try:
        try:
            return write_return_value(make_call())
        except error_type as e:
            call_status.code = _UniffiRustCallStatus.CALL_ERROR
            call_status.error_buf = lower_error(e)
    except Exception as e:
        call_status.code = _UniffiRustCallStatus.CALL_UNEXPECTED_ERROR
        call_status.error_buf = _UniffiFfiConverterString.lower(repr(e))
# Initial value and increment amount for handles.
# These ensure that Python-generated handles always have the lowest bit set
_UNIFFI_HANDLEMAP_INITIAL = 1
_UNIFFI_HANDLEMAP_DELTA = 2

class _UniffiHandleMap:
    """
    A map where inserting, getting and removing data is synchronized with a lock.
    """

    def __init__(self):
        # type Handle = int
        self._map = {}  # type: Dict[Handle, Any]
        self._lock = threading.Lock()
        self._counter = _UNIFFI_HANDLEMAP_INITIAL

    def insert(self, obj):
        with self._lock:
            return self._insert(obj)

    """Low-level insert, this assumes `self._lock` is held."""
    def _insert(self, obj):
        handle = self._counter
        self._counter += _UNIFFI_HANDLEMAP_DELTA
        self._map[handle] = obj
        return handle

    def get(self, handle):
        try:
            with self._lock:
                return self._map[handle]
        except KeyError:
            raise InternalError(f"_UniffiHandleMap.get: Invalid handle {handle}")

    def clone(self, handle):
        try:
            with self._lock:
                obj = self._map[handle]
                return self._insert(obj)
        except KeyError:
            raise InternalError(f"_UniffiHandleMap.clone: Invalid handle {handle}")

    def remove(self, handle):
        try:
            with self._lock:
                return self._map.pop(handle)
        except KeyError:
            raise InternalError(f"_UniffiHandleMap.remove: Invalid handle: {handle}")

    def __len__(self):
        return len(self._map)
# Types conforming to `_UniffiConverterPrimitive` pass themselves directly over the FFI.
class _UniffiConverterPrimitive:
    @classmethod
    def lift(cls, value):
        return value

    @classmethod
    def lower(cls, value):
        return value

class _UniffiConverterPrimitiveInt(_UniffiConverterPrimitive):
    @classmethod
    def check_lower(cls, value):
        try:
            value = value.__index__()
        except Exception:
            raise TypeError("'{}' object cannot be interpreted as an integer".format(type(value).__name__))
        if not isinstance(value, int):
            raise TypeError("__index__ returned non-int (type {})".format(type(value).__name__))
        if not cls.VALUE_MIN <= value < cls.VALUE_MAX:
            raise ValueError("{} requires {} <= value < {}".format(cls.CLASS_NAME, cls.VALUE_MIN, cls.VALUE_MAX))

class _UniffiConverterPrimitiveFloat(_UniffiConverterPrimitive):
    @classmethod
    def check_lower(cls, value):
        try:
            value = value.__float__()
        except Exception:
            raise TypeError("must be real number, not {}".format(type(value).__name__))
        if not isinstance(value, float):
            raise TypeError("__float__ returned non-float (type {})".format(type(value).__name__))

# Helper class for wrapper types that will always go through a _UniffiRustBuffer.
# Classes should inherit from this and implement the `read` and `write` static methods.
class _UniffiConverterRustBuffer:
    @classmethod
    def lift(cls, rbuf):
        with rbuf.consume_with_stream() as stream:
            return cls.read(stream)

    @classmethod
    def lower(cls, value):
        with _UniffiRustBuffer.alloc_with_builder() as builder:
            cls.write(value, builder)
            return builder.finalize()

# Contains loading, initialization code, and the FFI Function declarations.
# Define some ctypes FFI types that we use in the library

"""
Function pointer for a Rust task, which a callback function that takes a opaque pointer
"""
_UNIFFI_RUST_TASK = ctypes.CFUNCTYPE(None, ctypes.c_void_p, ctypes.c_int8)

def _uniffi_future_callback_t(return_type):
    """
    Factory function to create callback function types for async functions
    """
    return ctypes.CFUNCTYPE(None, ctypes.c_uint64, return_type, _UniffiRustCallStatus)

def _uniffi_load_indirect():
    """
    This is how we find and load the dynamic library provided by the component.
    For now we just look it up by name.
    """
    if sys.platform == "darwin":
        libname = "lib{}.dylib"
    elif sys.platform.startswith("win"):
        # As of python3.8, ctypes does not seem to search $PATH when loading DLLs.
        # We could use `os.add_dll_directory` to configure the search path, but
        # it doesn't feel right to mess with application-wide settings. Let's
        # assume that the `.dll` is next to the `.py` file and load by full path.
        libname = os.path.join(
            os.path.dirname(__file__),
            "{}.dll",
        )
    else:
        # Anything else must be an ELF platform - Linux, *BSD, Solaris/illumos
        libname = "lib{}.so"

    libname = libname.format("farsiding_bindings")
    path = os.path.join(os.path.dirname(__file__), libname)
    lib = ctypes.cdll.LoadLibrary(path)
    return lib

def _uniffi_check_contract_api_version(lib):
    # Get the bindings contract version from our ComponentInterface
    bindings_contract_version = 30
    # Get the scaffolding contract version by calling the into the dylib
    scaffolding_contract_version = lib.ffi_farsiding_bindings_uniffi_contract_version()
    if bindings_contract_version != scaffolding_contract_version:
        raise InternalError("UniFFI contract version mismatch: try cleaning and rebuilding your project")

def _uniffi_check_api_checksums(lib):
    if lib.uniffi_farsiding_bindings_checksum_func_calculate() != 12748:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_core_version() != 30956:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_formulas() != 56892:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_new_key() != 16597:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() != 56356:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_pin_storage_key() != 29291:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_prepare_storage() != 34496:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_read_amount() != 17718:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_constructor_book_open() != 10423:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_append() != 19026:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_binds() != 7415:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carried_photo() != 1338:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_in() != 60974:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_out() != 62352:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_photo() != 18568:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_change_pin() != 7098:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_device() != 27345:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_drafts() != 57336:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrol_request() != 4152:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrolled() != 19958:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrolled_with() != 24574:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_find() != 23673:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_fit_to_unload() != 9605:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_forget_person_key() != 2692:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_keep_beside() != 5762:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_lock_people() != 8337:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_log_receive() != 60625:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_log_request() != 54498:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_make_person_key() != 30723:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_new_site() != 29822:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_open_visit() != 6418:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_over() != 58626:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_override_items() != 54076:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_pass_over() != 43011:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_pass_request() != 63888:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_people() != 50066:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_people_here() != 15443:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photo_taken() != 61104:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photos_of() != 21378:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photos_waiting() != 19255:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_preview() != 9245:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_record_step() != 26513:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_release() != 4878:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_set_draft() != 10070:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_settle() != 19825:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_show() != 38547:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sites() != 9170:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_standing() != 15573:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_status() != 58531:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_receive() != 34293:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_request() != 1845:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_start() != 4745:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_unlock_person() != 22959:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_visit() != 63855:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_visits() != 6735:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_withdraw() != 14647:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")

# A ctypes library to expose the extern-C FFI definitions.
# This is an implementation detail which will be called internally by the public API.

_UniffiLib = _uniffi_load_indirect()
_UniffiLib.ffi_farsiding_bindings_rustbuffer_alloc.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rustbuffer_alloc.restype = _UniffiRustBuffer
_UniffiLib.ffi_farsiding_bindings_rustbuffer_from_bytes.argtypes = (
    _UniffiForeignBytes,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rustbuffer_from_bytes.restype = _UniffiRustBuffer
_UniffiLib.ffi_farsiding_bindings_rustbuffer_free.argtypes = (
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rustbuffer_free.restype = None
_UniffiLib.ffi_farsiding_bindings_rustbuffer_reserve.argtypes = (
    _UniffiRustBuffer,
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rustbuffer_reserve.restype = _UniffiRustBuffer
_UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK = ctypes.CFUNCTYPE(None,ctypes.c_uint64,ctypes.c_int8,
)
_UNIFFI_FOREIGN_FUTURE_DROPPED_CALLBACK = ctypes.CFUNCTYPE(None,ctypes.c_uint64,
)
class _UniffiForeignFutureDroppedCallbackStruct(ctypes.Structure):
    _fields_ = [
        ("handle", ctypes.c_uint64),
        ("free", _UNIFFI_FOREIGN_FUTURE_DROPPED_CALLBACK),
    ]
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u8.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u8.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u8.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u8.restype = ctypes.c_uint8
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u8.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i8.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i8.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i8.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i8.restype = ctypes.c_int8
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i8.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i8.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u16.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u16.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u16.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u16.restype = ctypes.c_uint16
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u16.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i16.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i16.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i16.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i16.restype = ctypes.c_int16
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i16.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i16.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u32.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u32.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u32.restype = ctypes.c_uint32
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i32.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i32.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i32.restype = ctypes.c_int32
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u64.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_u64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_u64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u64.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_u64.restype = ctypes.c_uint64
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_u64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i64.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_i64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_i64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i64.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_i64.restype = ctypes.c_int64
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_i64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_f32.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_f32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_f32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_f32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_f32.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_f32.restype = ctypes.c_float
_UniffiLib.ffi_farsiding_bindings_rust_future_free_f32.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_f32.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_f64.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_f64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_f64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_f64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_f64.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_f64.restype = ctypes.c_double
_UniffiLib.ffi_farsiding_bindings_rust_future_free_f64.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_f64.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_rust_buffer.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_rust_buffer.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_rust_buffer.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_rust_buffer.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_rust_buffer.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_rust_buffer.restype = _UniffiRustBuffer
_UniffiLib.ffi_farsiding_bindings_rust_future_free_rust_buffer.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_rust_buffer.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_void.argtypes = (
    ctypes.c_uint64,
    _UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK,
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_poll_void.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_void.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_cancel_void.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_void.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.ffi_farsiding_bindings_rust_future_complete_void.restype = None
_UniffiLib.ffi_farsiding_bindings_rust_future_free_void.argtypes = (
    ctypes.c_uint64,
)
_UniffiLib.ffi_farsiding_bindings_rust_future_free_void.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_clone_book.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_clone_book.restype = ctypes.c_uint64
_UniffiLib.uniffi_farsiding_bindings_fn_free_book.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_free_book.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_func_calculate.argtypes = (
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_calculate.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_func_core_version.argtypes = (
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_core_version.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_func_formulas.argtypes = (
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_formulas.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_func_new_key.argtypes = (
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_new_key.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_func_pin_may_be_chosen.argtypes = (
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_pin_may_be_chosen.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_func_pin_storage_key.argtypes = (
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_pin_storage_key.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_func_prepare_storage.argtypes = (
    _UniffiRustBuffer,
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_prepare_storage.restype = ctypes.c_uint64
_UniffiLib.uniffi_farsiding_bindings_fn_func_read_amount.argtypes = (
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_func_read_amount.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_constructor_book_open.argtypes = (
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_constructor_book_open.restype = ctypes.c_uint64
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_append.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_append.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_binds.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_binds.restype = ctypes.c_int8
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carried_photo.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carried_photo.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_in.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_in.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_out.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_out.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_photo.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_photo.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_change_pin.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_change_pin.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_device.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_device.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_drafts.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_drafts.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrol_request.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.c_int64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrol_request.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled_with.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled_with.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_find.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_find.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_fit_to_unload.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_fit_to_unload.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_forget_person_key.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_forget_person_key.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_keep_beside.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_keep_beside.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_lock_people.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_lock_people.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_receive.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_receive.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_request.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_request.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_make_person_key.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_make_person_key.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_new_site.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_new_site.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_open_visit.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_open_visit.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_over.argtypes = (
    ctypes.c_uint64,
    ctypes.c_uint32,
    ctypes.c_uint32,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_over.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_override_items.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_override_items.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_over.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_over.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_request.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_request.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_people.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_people.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_people_here.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_people_here.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photo_taken.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photo_taken.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_of.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_of.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_waiting.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_waiting.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_preview.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_preview.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_record_step.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_record_step.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_release.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.c_int8,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_release.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_set_draft.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_set_draft.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_settle.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_settle.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_show.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_show.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sites.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sites.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_standing.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_standing.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_status.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_status.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_receive.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_receive.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_request.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_request.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_start.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_start.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_unlock_person.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_unlock_person.restype = None
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_visit.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_visit.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_visits.argtypes = (
    ctypes.c_uint64,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_visits.restype = _UniffiRustBuffer
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_withdraw.argtypes = (
    ctypes.c_uint64,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    _UniffiRustBuffer,
    ctypes.POINTER(_UniffiRustCallStatus),
)
_UniffiLib.uniffi_farsiding_bindings_fn_method_book_withdraw.restype = _UniffiRustBuffer
_UniffiLib.ffi_farsiding_bindings_uniffi_contract_version.argtypes = (
)
_UniffiLib.ffi_farsiding_bindings_uniffi_contract_version.restype = ctypes.c_uint32
_UniffiLib.uniffi_farsiding_bindings_checksum_func_calculate.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_calculate.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_core_version.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_core_version.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_formulas.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_formulas.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_new_key.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_new_key.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_pin_storage_key.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_pin_storage_key.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_prepare_storage.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_prepare_storage.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_func_read_amount.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_func_read_amount.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_constructor_book_open.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_constructor_book_open.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_append.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_append.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_binds.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_binds.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carried_photo.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carried_photo.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_in.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_in.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_out.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_out.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_photo.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_carry_photo.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_change_pin.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_change_pin.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_device.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_device.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_drafts.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_drafts.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrol_request.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrol_request.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrolled.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrolled.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrolled_with.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_enrolled_with.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_find.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_find.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_fit_to_unload.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_fit_to_unload.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_forget_person_key.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_forget_person_key.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_keep_beside.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_keep_beside.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_lock_people.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_lock_people.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_log_receive.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_log_receive.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_log_request.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_log_request.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_make_person_key.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_make_person_key.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_new_site.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_new_site.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_open_visit.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_open_visit.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_over.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_over.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_override_items.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_override_items.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_pass_over.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_pass_over.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_pass_request.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_pass_request.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_people.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_people.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_people_here.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_people_here.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photo_taken.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photo_taken.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photos_of.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photos_of.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photos_waiting.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_photos_waiting.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_preview.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_preview.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_record_step.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_record_step.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_release.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_release.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_set_draft.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_set_draft.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_settle.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_settle.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_show.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_show.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sites.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sites.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_standing.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_standing.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_status.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_status.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_receive.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_receive.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_request.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_request.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_start.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_sync_start.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_unlock_person.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_unlock_person.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_visit.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_visit.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_visits.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_visits.restype = ctypes.c_uint16
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_withdraw.argtypes = (
)
_UniffiLib.uniffi_farsiding_bindings_checksum_method_book_withdraw.restype = ctypes.c_uint16

_uniffi_check_contract_api_version(_UniffiLib)
# _uniffi_check_api_checksums(_UniffiLib)

# RustFuturePoll values
_UNIFFI_RUST_FUTURE_POLL_READY = 0
_UNIFFI_RUST_FUTURE_POLL_WAKE = 1

# Stores futures for _uniffi_continuation_callback
_UniffiContinuationHandleMap = _UniffiHandleMap()

_UNIFFI_GLOBAL_EVENT_LOOP = None

"""
Set the event loop to use for async functions

This is needed if some async functions run outside of the eventloop, for example:
    - A non-eventloop thread is spawned, maybe from `EventLoop.run_in_executor` or maybe from the
      Rust code spawning its own thread.
    - The Rust code calls an async callback method from a sync callback function, using something
      like `pollster` to block on the async call.

In this case, we need an event loop to run the Python async function, but there's no eventloop set
for the thread.  Use `uniffi_set_event_loop` to force an eventloop to be used in this case.
"""
def uniffi_set_event_loop(eventloop: asyncio.BaseEventLoop):
    global _UNIFFI_GLOBAL_EVENT_LOOP
    _UNIFFI_GLOBAL_EVENT_LOOP = eventloop

def _uniffi_get_event_loop():
    if _UNIFFI_GLOBAL_EVENT_LOOP is not None:
        return _UNIFFI_GLOBAL_EVENT_LOOP
    else:
        return asyncio.get_running_loop()

# Continuation callback for async functions
# lift the return value or error and resolve the future, causing the async function to resume.
@_UNIFFI_RUST_FUTURE_CONTINUATION_CALLBACK
def _uniffi_continuation_callback(future_ptr, poll_code):
    (eventloop, future) = _UniffiContinuationHandleMap.remove(future_ptr)
    eventloop.call_soon_threadsafe(_uniffi_set_future_result, future, poll_code)

def _uniffi_set_future_result(future, poll_code):
    if not future.cancelled():
        future.set_result(poll_code)

async def _uniffi_rust_call_async(rust_future, ffi_poll, ffi_complete, ffi_free, lift_func, error_ffi_converter):
    try:
        eventloop = _uniffi_get_event_loop()

        # Loop and poll until we see a _UNIFFI_RUST_FUTURE_POLL_READY value
        while True:
            future = eventloop.create_future()
            ffi_poll(
                rust_future,
                _uniffi_continuation_callback,
                _UniffiContinuationHandleMap.insert((eventloop, future)),
            )
            poll_code = await future
            if poll_code == _UNIFFI_RUST_FUTURE_POLL_READY:
                break

        return lift_func(
            _uniffi_rust_call_with_error(error_ffi_converter, ffi_complete, rust_future)
        )
    finally:
        ffi_free(rust_future)

# Public interface members begin here.


class _UniffiFfiConverterString:
    @staticmethod
    def check_lower(value):
        if not isinstance(value, str):
            raise TypeError("argument must be str, not {}".format(type(value).__name__))
        return value

    @staticmethod
    def read(buf):
        size = buf.read_i32()
        if size < 0:
            raise InternalError("Unexpected negative string length")
        utf8_bytes = buf.read(size)
        return utf8_bytes.decode("utf-8")

    @staticmethod
    def write(value, buf):
        utf8_bytes = value.encode("utf-8")
        buf.write_i32(len(utf8_bytes))
        buf.write(utf8_bytes)

    @staticmethod
    def lift(buf):
        with buf.consume_with_stream() as stream:
            return stream.read(stream.remaining()).decode("utf-8")

    @staticmethod
    def lower(value):
        with _UniffiRustBuffer.alloc_with_builder() as builder:
            builder.write(value.encode("utf-8"))
            return builder.finalize()

class _UniffiFfiConverterFloat64(_UniffiConverterPrimitiveFloat):
    @staticmethod
    def read(buf):
        return buf.read_double()

    @staticmethod
    def write(value, buf):
        buf.write_double(value)

@dataclass
class AmountReading:
    """
    One reading of a text that somebody typed as an amount.
"""
    def __init__(self, *, amount:str, value:float, unit:str, shown:str):
        self.amount = amount
        self.value = value
        self.unit = unit
        self.shown = shown




    def __str__(self):
        return "AmountReading(amount={}, value={}, unit={}, shown={})".format(self.amount, self.value, self.unit, self.shown)
    def __eq__(self, other):
        if self.amount != other.amount:
            return False
        if self.value != other.value:
            return False
        if self.unit != other.unit:
            return False
        if self.shown != other.shown:
            return False
        return True

class _UniffiFfiConverterTypeAmountReading(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        return AmountReading(
            amount=_UniffiFfiConverterString.read(buf),
            value=_UniffiFfiConverterFloat64.read(buf),
            unit=_UniffiFfiConverterString.read(buf),
            shown=_UniffiFfiConverterString.read(buf),
        )

    @staticmethod
    def check_lower(value):
        _UniffiFfiConverterString.check_lower(value.amount)
        _UniffiFfiConverterFloat64.check_lower(value.value)
        _UniffiFfiConverterString.check_lower(value.unit)
        _UniffiFfiConverterString.check_lower(value.shown)

    @staticmethod
    def write(value, buf):
        _UniffiFfiConverterString.write(value.amount, buf)
        _UniffiFfiConverterFloat64.write(value.value, buf)
        _UniffiFfiConverterString.write(value.unit, buf)
        _UniffiFfiConverterString.write(value.shown, buf)

class _UniffiFfiConverterBytes(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        size = buf.read_i32()
        if size < 0:
            raise InternalError("Unexpected negative byte string length")
        return buf.read(size)

    @staticmethod
    def check_lower(value):
        try:
            memoryview(value)
        except TypeError:
            raise TypeError("a bytes-like object is required, not {!r}".format(type(value).__name__))

    @staticmethod
    def write(value, buf):
        buf.write_i32(len(value))
        buf.write(value)

@dataclass
class Picture:
    """
    A photograph's exact bytes out of a carry file.
"""
    def __init__(self, *, media:str, bytes:bytes):
        self.media = media
        self.bytes = bytes




    def __str__(self):
        return "Picture(media={}, bytes={})".format(self.media, self.bytes)
    def __eq__(self, other):
        if self.media != other.media:
            return False
        if self.bytes != other.bytes:
            return False
        return True

class _UniffiFfiConverterTypePicture(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        return Picture(
            media=_UniffiFfiConverterString.read(buf),
            bytes=_UniffiFfiConverterBytes.read(buf),
        )

    @staticmethod
    def check_lower(value):
        _UniffiFfiConverterString.check_lower(value.media)
        _UniffiFfiConverterBytes.check_lower(value.bytes)

    @staticmethod
    def write(value, buf):
        _UniffiFfiConverterString.write(value.media, buf)
        _UniffiFfiConverterBytes.write(value.bytes, buf)

class _UniffiFfiConverterSequenceTypeAmountReading(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        for item in value:
            _UniffiFfiConverterTypeAmountReading.check_lower(item)

    @classmethod
    def write(cls, value, buf):
        items = len(value)
        buf.write_i32(items)
        for item in value:
            _UniffiFfiConverterTypeAmountReading.write(item, buf)

    @classmethod
    def read(cls, buf):
        count = buf.read_i32()
        if count < 0:
            raise InternalError("Unexpected negative sequence length")

        return [
            _UniffiFfiConverterTypeAmountReading.read(buf) for i in range(count)
        ]

@dataclass
class ReadAmount:
    """
    What a typed text can mean: one amount, or two to choose from, or none and why.
"""
    def __init__(self, *, text:str, readings:typing.List[AmountReading], refused:str, why:str):
        self.text = text
        self.readings = readings
        self.refused = refused
        self.why = why




    def __str__(self):
        return "ReadAmount(text={}, readings={}, refused={}, why={})".format(self.text, self.readings, self.refused, self.why)
    def __eq__(self, other):
        if self.text != other.text:
            return False
        if self.readings != other.readings:
            return False
        if self.refused != other.refused:
            return False
        if self.why != other.why:
            return False
        return True

class _UniffiFfiConverterTypeReadAmount(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        return ReadAmount(
            text=_UniffiFfiConverterString.read(buf),
            readings=_UniffiFfiConverterSequenceTypeAmountReading.read(buf),
            refused=_UniffiFfiConverterString.read(buf),
            why=_UniffiFfiConverterString.read(buf),
        )

    @staticmethod
    def check_lower(value):
        _UniffiFfiConverterString.check_lower(value.text)
        _UniffiFfiConverterSequenceTypeAmountReading.check_lower(value.readings)
        _UniffiFfiConverterString.check_lower(value.refused)
        _UniffiFfiConverterString.check_lower(value.why)

    @staticmethod
    def write(value, buf):
        _UniffiFfiConverterString.write(value.text, buf)
        _UniffiFfiConverterSequenceTypeAmountReading.write(value.readings, buf)
        _UniffiFfiConverterString.write(value.refused, buf)
        _UniffiFfiConverterString.write(value.why, buf)

class _UniffiFfiConverterUInt32(_UniffiConverterPrimitiveInt):
    CLASS_NAME = "u32"
    VALUE_MIN = 0
    VALUE_MAX = 2**32

    @staticmethod
    def read(buf):
        return buf.read_u32()

    @staticmethod
    def write(value, buf):
        buf.write_u32(value)

class _UniffiFfiConverterInt64(_UniffiConverterPrimitiveInt):
    CLASS_NAME = "i64"
    VALUE_MIN = -2**63
    VALUE_MAX = 2**63

    @staticmethod
    def read(buf):
        return buf.read_i64()

    @staticmethod
    def write(value, buf):
        buf.write_i64(value)



# FarsidingError
# We want to define each variant as a nested class that's also a subclass,
# which is tricky in Python.  To accomplish this we're going to create each
# class separately, then manually add the child classes to the base class's
# __dict__.  All of this happens in dummy class to avoid polluting the module
# namespace.
class FarsidingError(Exception):
    """
    What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
    was lost.

    Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
    call, never the only thing shown.
"""
    pass

_UniffiTempFarsidingError = FarsidingError

class FarsidingError:  # type: ignore
    """
    What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
    was lost.

    Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
    call, never the only thing shown.
"""

    class OpenElsewhere(_UniffiTempFarsidingError):
        """
        Another tab, window or program holds the book. Use that one, or close it and try again.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.OpenElsewhere({})".format(str(self))
    _UniffiTempFarsidingError.OpenElsewhere = OpenElsewhere # type: ignore
    class NoStorage(_UniffiTempFarsidingError):
        """
        This place cannot keep records: a private window, no such folder, no permission. Use another place.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.NoStorage({})".format(str(self))
    _UniffiTempFarsidingError.NoStorage = NoStorage # type: ignore
    class NotStored(_UniffiTempFarsidingError):
        """
        The disk failed or is full, and the entries that this call was to make were not made. Free some space,
        then make the call again.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.NotStored({})".format(str(self))
    _UniffiTempFarsidingError.NotStored = NotStored # type: ignore
    class Refused(_UniffiTempFarsidingError):
        """
        What was handed over breaks a rule, or is not what it claims to be, and was refused whole. Show the
        reason; the same call would be refused again.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.Refused({})".format(str(self))
    _UniffiTempFarsidingError.Refused = Refused # type: ignore
    class NotTheOffice(_UniffiTempFarsidingError):
        """
        What answered is not the office's server: a login page in between, or another address. Try again
        later, with another network.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.NotTheOffice({})".format(str(self))
    _UniffiTempFarsidingError.NotTheOffice = NotTheOffice # type: ignore
    class NotEnrolled(_UniffiTempFarsidingError):
        """
        No office has enrolled this device yet. Records are kept, and nothing is sent: enrol the device first.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.NotEnrolled({})".format(str(self))
    _UniffiTempFarsidingError.NotEnrolled = NotEnrolled # type: ignore
    class WeakPin(_UniffiTempFarsidingError):
        """
        The PIN is not six digits, or is among the first that anybody tries. Ask for another one.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.WeakPin({})".format(str(self))
    _UniffiTempFarsidingError.WeakPin = WeakPin # type: ignore
    class WrongPin(_UniffiTempFarsidingError):
        """
        The PIN was wrong. Ask again and say how many tries are left, or let the person say that it is
        forgotten.
"""

        def __init__(self, why, says, left):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
                "left={!r}".format(left),
            ]))
            self.why = why
            self.says = says
            self.left = left

        def __repr__(self):
            return "FarsidingError.WrongPin({})".format(str(self))
    _UniffiTempFarsidingError.WrongPin = WrongPin # type: ignore
    class PinWaits(_UniffiTempFarsidingError):
        """
        Too many wrong PINs were tried, and this try was not made. Wait until the time given.
"""

        def __init__(self, why, says, until):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
                "until={!r}".format(until),
            ]))
            self.why = why
            self.says = says
            self.until = until

        def __repr__(self):
            return "FarsidingError.PinWaits({})".format(str(self))
    _UniffiTempFarsidingError.PinWaits = PinWaits # type: ignore
    class KeyLocked(_UniffiTempFarsidingError):
        """
        Ten wrong PINs were tried, and the key is gone from this device. Tell the office, then make a new key.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.KeyLocked({})".format(str(self))
    _UniffiTempFarsidingError.KeyLocked = KeyLocked # type: ignore
    class KeyEnded(_UniffiTempFarsidingError):
        """
        The office ended the key. Make a new one.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.KeyEnded({})".format(str(self))
    _UniffiTempFarsidingError.KeyEnded = KeyEnded # type: ignore
    class NoKey(_UniffiTempFarsidingError):
        """
        The person has no key on this device. Make one, or go on without: the device alone then names the
        person.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.NoKey({})".format(str(self))
    _UniffiTempFarsidingError.NoKey = NoKey # type: ignore
    class HasKey(_UniffiTempFarsidingError):
        """
        The person has a key on this device already. Unlock it, or drop it where its PIN is forgotten.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.HasKey({})".format(str(self))
    _UniffiTempFarsidingError.HasKey = HasKey # type: ignore
    class WrongCall(_UniffiTempFarsidingError):
        """
        The calling program made a mistake, such as a key of the wrong length. Mend the program.
"""

        def __init__(self, why, says):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "says={!r}".format(says),
            ]))
            self.why = why
            self.says = says

        def __repr__(self):
            return "FarsidingError.WrongCall({})".format(str(self))
    _UniffiTempFarsidingError.WrongCall = WrongCall # type: ignore

FarsidingError = _UniffiTempFarsidingError # type: ignore
del _UniffiTempFarsidingError


class _UniffiFfiConverterTypeFarsidingError(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        variant = buf.read_i32()
        if variant == 1:
            return FarsidingError.OpenElsewhere(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 2:
            return FarsidingError.NoStorage(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 3:
            return FarsidingError.NotStored(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 4:
            return FarsidingError.Refused(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 5:
            return FarsidingError.NotTheOffice(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 6:
            return FarsidingError.NotEnrolled(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 7:
            return FarsidingError.WeakPin(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 8:
            return FarsidingError.WrongPin(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterUInt32.read(buf),
            )
        if variant == 9:
            return FarsidingError.PinWaits(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterInt64.read(buf),
            )
        if variant == 10:
            return FarsidingError.KeyLocked(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 11:
            return FarsidingError.KeyEnded(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 12:
            return FarsidingError.NoKey(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 13:
            return FarsidingError.HasKey(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 14:
            return FarsidingError.WrongCall(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterString.read(buf),
            )
        raise InternalError("Raw enum value doesn't match any cases")

    @staticmethod
    def check_lower(value):
        if isinstance(value, FarsidingError.OpenElsewhere):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.NoStorage):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.NotStored):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.Refused):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.NotTheOffice):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.NotEnrolled):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.WeakPin):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.WrongPin):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            _UniffiFfiConverterUInt32.check_lower(value.left)
            return
        if isinstance(value, FarsidingError.PinWaits):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            _UniffiFfiConverterInt64.check_lower(value.until)
            return
        if isinstance(value, FarsidingError.KeyLocked):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.KeyEnded):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.NoKey):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.HasKey):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return
        if isinstance(value, FarsidingError.WrongCall):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterString.check_lower(value.says)
            return

    @staticmethod
    def write(value, buf):
        if isinstance(value, FarsidingError.OpenElsewhere):
            buf.write_i32(1)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.NoStorage):
            buf.write_i32(2)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.NotStored):
            buf.write_i32(3)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.Refused):
            buf.write_i32(4)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.NotTheOffice):
            buf.write_i32(5)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.NotEnrolled):
            buf.write_i32(6)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.WeakPin):
            buf.write_i32(7)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.WrongPin):
            buf.write_i32(8)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
            _UniffiFfiConverterUInt32.write(value.left, buf)
        if isinstance(value, FarsidingError.PinWaits):
            buf.write_i32(9)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
            _UniffiFfiConverterInt64.write(value.until, buf)
        if isinstance(value, FarsidingError.KeyLocked):
            buf.write_i32(10)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.KeyEnded):
            buf.write_i32(11)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.NoKey):
            buf.write_i32(12)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.HasKey):
            buf.write_i32(13)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)
        if isinstance(value, FarsidingError.WrongCall):
            buf.write_i32(14)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterString.write(value.says, buf)

class _UniffiFfiConverterSequenceString(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        for item in value:
            _UniffiFfiConverterString.check_lower(item)

    @classmethod
    def write(cls, value, buf):
        items = len(value)
        buf.write_i32(items)
        for item in value:
            _UniffiFfiConverterString.write(item, buf)

    @classmethod
    def read(cls, buf):
        count = buf.read_i32()
        if count < 0:
            raise InternalError("Unexpected negative sequence length")

        return [
            _UniffiFfiConverterString.read(buf) for i in range(count)
        ]

class _UniffiFfiConverterBoolean:
    @classmethod
    def check_lower(cls, value):
        return not not value

    @classmethod
    def lower(cls, value):
        return 1 if value else 0

    @staticmethod
    def lift(value):
        return value != 0

    @classmethod
    def read(cls, buf):
        return cls.lift(buf.read_u8())

    @classmethod
    def write(cls, value, buf):
        buf.write_u8(value)

class _UniffiFfiConverterOptionalTypePicture(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        if value is not None:
            _UniffiFfiConverterTypePicture.check_lower(value)

    @classmethod
    def write(cls, value, buf):
        if value is None:
            buf.write_u8(0)
            return

        buf.write_u8(1)
        _UniffiFfiConverterTypePicture.write(value, buf)

    @classmethod
    def read(cls, buf):
        flag = buf.read_u8()
        if flag == 0:
            return None
        elif flag == 1:
            return _UniffiFfiConverterTypePicture.read(buf)
        else:
            raise InternalError("Unexpected flag byte for optional type")

class _UniffiFfiConverterSequenceBytes(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        for item in value:
            _UniffiFfiConverterBytes.check_lower(item)

    @classmethod
    def write(cls, value, buf):
        items = len(value)
        buf.write_i32(items)
        for item in value:
            _UniffiFfiConverterBytes.write(item, buf)

    @classmethod
    def read(cls, buf):
        count = buf.read_i32()
        if count < 0:
            raise InternalError("Unexpected negative sequence length")

        return [
            _UniffiFfiConverterBytes.read(buf) for i in range(count)
        ]

class _UniffiFfiConverterOptionalBytes(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        if value is not None:
            _UniffiFfiConverterBytes.check_lower(value)

    @classmethod
    def write(cls, value, buf):
        if value is None:
            buf.write_u8(0)
            return

        buf.write_u8(1)
        _UniffiFfiConverterBytes.write(value, buf)

    @classmethod
    def read(cls, buf):
        flag = buf.read_u8()
        if flag == 0:
            return None
        elif flag == 1:
            return _UniffiFfiConverterBytes.read(buf)
        else:
            raise InternalError("Unexpected flag byte for optional type")

class _UniffiFfiConverterUInt64(_UniffiConverterPrimitiveInt):
    CLASS_NAME = "u64"
    VALUE_MIN = 0
    VALUE_MAX = 2**64

    @staticmethod
    def read(buf):
        return buf.read_u64()

    @staticmethod
    def write(value, buf):
        buf.write_u64(value)


class BookProtocol(typing.Protocol):
    """
    An open book: the signed records of one device, in one SQLite file.

    Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
    returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.

    Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
    sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
    their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
"""

    def append(self, subject: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
        64 hexadecimal digits each. They are signed and on the disk when this returns.

        `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
        `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
        statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
        "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
        A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
        then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
        degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
        95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.

        # Errors
        - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
        - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
        the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def binds(self, drafts: str) -> bool:
        """
        Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
        person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
        named the person. `drafts` are as for `append`.

        # Errors
        - `WrongCall`: `drafts` is other JSON.
"""
        raise NotImplementedError
    def carried_photo(self, ) -> typing.Optional[Picture]:
        """
        Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
        there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
"""
        raise NotImplementedError
    def carry_in(self, file: bytes) -> str:
        """
        Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
        `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
        reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
        `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
        the file. Taking one file in twice changes nothing.

        # Errors
        - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
        unpacked. Nothing was taken in.
        - `NotStored`: the disk failed or is full. Taking the file in again completes it.
"""
        raise NotImplementedError
    def carry_out(self, visits: typing.List[str]) -> bytes:
        """
        Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
        photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
        encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
        digits; one that is not here is left out.

        # Errors
        - `WrongCall`: an id cannot be read.
        - `NotStored`: the disk cannot be read.
        - `Refused`: the file could not be encoded.
"""
        raise NotImplementedError
    def carry_photo(self, bytes: bytes) -> None:
        """
        Takes the exact bytes of one photograph for the next carry file. They wait in memory until
        `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
        (50331648 bytes).

        # Errors
        - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def change_pin(self, person: str,old_pin: str,new_pin: str) -> None:
        """
        Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
        the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.

        # Errors
        - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
        - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
"""
        raise NotImplementedError
    def device(self, ) -> str:
        """
        This device's id: its public key, 64 hexadecimal digits. Never fails.
"""
        raise NotImplementedError
    def drafts(self, ) -> str:
        """
        Every text that `set_draft` keeps, as a JSON object from key to text.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def enrol_request(self, code: str,name: str,organisation_key: str,server_time: int) -> bytes:
        """
        The body of the request that enrols this device: signed by the device's key, with a one-time code from
        the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.

        Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
        `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
        in the office's link before the code leaves this device. `name` is what the office calls this device.

        # Errors
        - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
        - `Refused`: the request could not be encoded.
"""
        raise NotImplementedError
    def enrolled(self, organisation_key: str,certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
        `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
        `key_statements`, call `enrolled_with` instead.

        # Errors
        - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
        - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
        kept.
        - `NotStored`: the disk failed or is full.
"""
        raise NotImplementedError
    def enrolled_with(self, organisation_key: str,key_statements: typing.List[bytes],certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
        another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
        `key_statements`, in their order.

        # Errors
        As `enrolled`.
"""
        raise NotImplementedError
    def find(self, text: str) -> str:
        """
        The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
        `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
        to case. The list is empty when `text` has neither.

        # Errors
        None today.
"""
        raise NotImplementedError
    def fit_to_unload(self, visit: str,operator: str) -> typing.List[str]:
        """
        Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
        a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
        that a car is safe: a person decides and signs.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
        procedure has no such gate, or this device may not sign it.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def forget_person_key(self, person: str) -> None:
        """
        Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
        office ends it in the roster, and the person makes a new one with `make_person_key`.

        # Errors
        - `NoKey`: the person has no key on this device.
        - `NotStored`: the disk failed or is full. The key is then still here.
"""
        raise NotImplementedError
    def keep_beside(self, secret: bytes) -> None:
        """
        Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
        once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
        it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
        memory only.

        # Errors
        - `WrongCall`: the secret has not 32 bytes.
"""
        raise NotImplementedError
    def lock_people(self, ) -> None:
        """
        Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
"""
        raise NotImplementedError
    def log_receive(self, reply: bytes) -> str:
        """
        Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
        [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
        `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
        1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
        sync goes on, and `status` keeps it.

        # Errors
        - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
        called again.
        - `WrongCall`: the log was not asked for.
        - `NotStored`: the disk failed or is full.
"""
        raise NotImplementedError
    def log_request(self, ) -> typing.Optional[bytes]:
        """
        The body of the next request about the office's log, for after a sync: send it with `POST` to the
        office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
        Call this again when `log_receive` says that it is not done, or when a reply got lost.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def make_person_key(self, person: str,pin: str) -> str:
        """
        Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
        so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
        digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.

        # Errors
        - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
        - `HasKey`: the person has a key on this device already.
        - `NotEnrolled`: no office has enrolled this device.
        - `WrongCall`: `keep_beside` was not called, or `person` is blank.
        - `Refused`: `person` is no code, or this device may not say so.
        - `NotStored`: the disk failed or is full. No key was made.
"""
        raise NotImplementedError
    def new_site(self, ) -> str:
        """
        A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
        is recorded. Never fails.
"""
        raise NotImplementedError
    def open_visit(self, opening: str,operator: str) -> str:
        """
        Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
        visit is on the disk when this returns.

        `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
        read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
        `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
        `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
        organisation published for the site is taken, or else the built-in procedure. `operator` is the code
        of the person who begins the visit: 1 to 64 printable characters, no
        blank at its ends.

        # Errors
        - `WrongCall`: `opening` is other JSON, or `operator` is blank.
        - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
        would be larger than 32 KiB, or this device may not begin visits at that site.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def over(self, _from: int,most: int) -> str:
        """
        How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
        "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
        many are returned at most; both are counts from 0 to 4294967295.

        # Errors
        None today.
"""
        raise NotImplementedError
    def override_items(self, visit: str,gate: str,items: typing.List[str],reason: str,operator: str) -> typing.List[str]:
        """
        Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
        the entry's id in a list of one: 64 hexadecimal digits.

        `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
        `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
        (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
        `visit` and `operator` are as for `settle`.

        # Errors
        - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
        device.
        - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
        device may not override.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def pass_over(self, visit: str,blocker: str,why: str,operator: str) -> typing.List[str]:
        """
        Passes over one thing that speaks against release, with a reason that the record shows for ever.
        Returns the entry's id in a list of one: 64 hexadecimal digits.

        `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
        as free text, required. `visit` and `operator` are as for `settle`.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
        not pass over.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def pass_request(self, ) -> bytes:
        """
        The body of the signed request for a pass, which lets this device send photographs to the office and
        fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def people(self, ) -> str:
        """
        The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
        `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
        code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
        one. `trained_on` is a date `YYYY-MM-DD`.

        # Errors
        None today.
"""
        raise NotImplementedError
    def people_here(self, ) -> str:
        """
        Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
        {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
        confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.

        `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
        `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
        `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
        groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
        the device is enrolled, and `keep_beside` was called.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def photo_taken(self, sha256: str,length: int,media: str) -> str:
        """
        Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
        as JSON: `{sha256, length, media}`.

        `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
        is the media type, such as `image/jpeg`.

        # Errors
        - `WrongCall`: `sha256` has not 64 hexadecimal digits.
        - `NotStored`: the disk failed or is full.
"""
        raise NotImplementedError
    def photos_of(self, visits: typing.List[str]) -> str:
        """
        The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
        length, media}` with `length` in bytes. Those that the office is not known to hold come first.
        `visits` are ids of 32 hexadecimal digits.

        # Errors
        - `WrongCall`: an id cannot be read.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def photos_waiting(self, ) -> str:
        """
        The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
        with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
        sending them shortens the list.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def preview(self, visit: str,drafts: str,operator: str) -> str:
        """
        The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
        kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.

        `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.

        # Errors
        - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: as `append` would refuse.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def record_step(self, visit: str,step: str,outcome: str,note: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
        Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.

        `step` is the step's id in the procedure, with its fitting where the step repeats:
        `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
        free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
        `operator` are as for `append`, and `drafts` may be `[]`.

        # Errors
        - `WrongCall`: an argument cannot be read, or `outcome` is another word.
        - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def release(self, visit: str,as_residue: bool,operator: str) -> typing.List[str]:
        """
        Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.

        `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
        `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
        or this device may not release.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def set_draft(self, key: str,text: str) -> None:
        """
        Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
        empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
        this device.

        # Errors
        - `NotStored`: the disk failed or is full.
"""
        raise NotImplementedError
    def settle(self, visit: str,keeps: str,why: str,operator: str) -> typing.List[str]:
        """
        Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
        id of the settlement in a list of one: 64 hexadecimal digits.

        `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
        text, required. `operator` is as for `append`.

        # Errors
        - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError
    def show(self, visit: str) -> str:
        """
        A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.

        # Errors
        - `WrongCall`: the id cannot be read, or the visit is not on this device.
"""
        raise NotImplementedError
    def sites(self, ) -> str:
        """
        The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
        `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
        seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
        level with its unit, or null.

        # Errors
        None today.
"""
        raise NotImplementedError
    def standing(self, ) -> str:
        """
        The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
        at the site, or the office has not given receipts for all of the stay. This is what a phone shows
        first.

        # Errors
        None today.
"""
        raise NotImplementedError
    def status(self, ) -> str:
        """
        How this device stands, as a JSON object:
        - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
        null. 64 hexadecimal digits each.
        - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
        receipt for.
        - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
        things from outside were refused and kept aside.
        - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
        when never compared.
        - `damaged`: the ids of entries whose rows on the disk are damaged.
        - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
        entries}]`, with the site's id and two counts.
        - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
        times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
        - `version`: the version of the core.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def sync_receive(self, reply: bytes) -> str:
        """
        Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
        set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.

        `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
        (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
        sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
        takes some things later, or null. `revoked` says that the office has revoked this device.
        `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
        documents that still differ, as `append` names them. `left` lists the documents that left this device, which
        no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
        that left with them, whose bytes are the caller's to delete.

        # Errors
        - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
        in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
        - `WrongCall`: no sync was begun.
        - `NotStored`: the disk failed or is full.
        - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
        again next time.
"""
        raise NotImplementedError
    def sync_request(self, ) -> bytes:
        """
        The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
        got lost.

        # Errors
        - `WrongCall`: no sync was begun, or the last one is done.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def sync_start(self, ) -> None:
        """
        Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
        with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
        broken off is forgotten; what it brought is kept.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        raise NotImplementedError
    def unlock_person(self, person: str,pin: str) -> None:
        """
        Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
        shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
        second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
        they are made.

        # Errors
        - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
        - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
        - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
        - `KeyEnded`: the office ended the key.
        - `NoKey`: the person has no key on this device.
        - `WeakPin`: the PIN has not six digits; no try was counted.
        - `WrongCall`: `keep_beside` was not called.
        - `Refused`: what was kept of the key is damaged.
        - `NotStored`: the disk failed or is full.
"""
        raise NotImplementedError
    def visit(self, visit: str) -> str:
        """
        A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
        seals, photographs, disagreements, blockers, findings, and the history as sentences.

        `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
        are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.

        # Errors
        - `WrongCall`: the id cannot be read, or the visit is not on this device.
"""
        raise NotImplementedError
    def visits(self, ) -> str:
        """
        One row for each stay on this device, as a JSON list.

        A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
        disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
        joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
        `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
        `unreceipted` are counts.

        # Errors
        None today.
"""
        raise NotImplementedError
    def withdraw(self, visit: str,entry: str,why: str,operator: str) -> typing.List[str]:
        """
        Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
        of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
        the entry that is taken back.

        # Errors
        - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
        back.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""
        raise NotImplementedError

class Book(BookProtocol):
    """
    An open book: the signed records of one device, in one SQLite file.

    Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
    returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.

    Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
    sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
    their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
"""

    _handle: ctypes.c_uint64
    @classmethod
    def open(cls, folder: str,name: str,key: bytes) -> Book:
        """
        Opens the book `name` in `folder`, or makes it when there is none. Call `prepare_storage(folder)`
        first, and wait for it.

        `folder` is a path; in a browser it is a folder of the origin's private file system. `name` is the
        name of one SQLite file in that folder: 1 to 200 bytes, without slashes. `key` is the device's secret
        of exactly 32 bytes (Ed25519), made once with `new_key`. The same key must be given every time:
        whoever opens the book with another key continues the records as another device. Opening reads and
        checks every record, which takes longer as records grow.

        # Errors
        - `WrongCall`: the key has not 32 bytes, or the name is empty, too long or has a slash.
        - `NoStorage`: the folder cannot be used, for example because `prepare_storage` has not made it.
        - `OpenElsewhere`: another program holds the file.
        - `NotStored`: the disk failed or is full.
        - `Refused`: a later version of this software wrote the file.
"""

        _UniffiFfiConverterString.check_lower(folder)

        _UniffiFfiConverterString.check_lower(name)

        _UniffiFfiConverterBytes.check_lower(key)
        _uniffi_lowered_args = (
            _UniffiFfiConverterString.lower(folder),
            _UniffiFfiConverterString.lower(name),
            _UniffiFfiConverterBytes.lower(key),
        )
        _uniffi_lift_return = _UniffiFfiConverterTypeBook.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_constructor_book_open,
            *_uniffi_lowered_args,
        )
        return cls._uniffi_make_instance(_uniffi_ffi_result)

    def __init__(self, *args, **kwargs):
        raise ValueError("This class has no default constructor")

    def __del__(self):
        # In case of partial initialization of instances.
        handle = getattr(self, "_handle", None)
        if handle is not None:
            _uniffi_rust_call(_UniffiLib.uniffi_farsiding_bindings_fn_free_book, handle)

    def _uniffi_clone_handle(self):
        return _uniffi_rust_call(_UniffiLib.uniffi_farsiding_bindings_fn_clone_book, self._handle)

    # Used by alternative constructors or any methods which return this type.
    @classmethod
    def _uniffi_make_instance(cls, handle):
        # Lightly yucky way to bypass the usual __init__ logic
        # and just create a new instance with the required handle.
        inst = cls.__new__(cls)
        inst._handle = handle
        return inst
    def append(self, subject: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
        64 hexadecimal digits each. They are signed and on the disk when this returns.

        `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
        `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
        statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
        "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
        A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
        then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
        degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
        95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.

        # Errors
        - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
        - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
        the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(subject)

        _UniffiFfiConverterString.check_lower(drafts)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(subject),
            _UniffiFfiConverterString.lower(drafts),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_append,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def binds(self, drafts: str) -> bool:
        """
        Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
        person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
        named the person. `drafts` are as for `append`.

        # Errors
        - `WrongCall`: `drafts` is other JSON.
"""

        _UniffiFfiConverterString.check_lower(drafts)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(drafts),
        )
        _uniffi_lift_return = _UniffiFfiConverterBoolean.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_binds,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carried_photo(self, ) -> typing.Optional[Picture]:
        """
        Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
        there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterOptionalTypePicture.lift
        _uniffi_error_converter = None
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carried_photo,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carry_in(self, file: bytes) -> str:
        """
        Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
        `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
        reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
        `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
        the file. Taking one file in twice changes nothing.

        # Errors
        - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
        unpacked. Nothing was taken in.
        - `NotStored`: the disk failed or is full. Taking the file in again completes it.
"""

        _UniffiFfiConverterBytes.check_lower(file)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(file),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_in,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carry_out(self, visits: typing.List[str]) -> bytes:
        """
        Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
        photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
        encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
        digits; one that is not here is left out.

        # Errors
        - `WrongCall`: an id cannot be read.
        - `NotStored`: the disk cannot be read.
        - `Refused`: the file could not be encoded.
"""

        _UniffiFfiConverterSequenceString.check_lower(visits)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterSequenceString.lower(visits),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_out,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carry_photo(self, bytes: bytes) -> None:
        """
        Takes the exact bytes of one photograph for the next carry file. They wait in memory until
        `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
        (50331648 bytes).

        # Errors
        - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
        - `NotStored`: the disk cannot be read.
"""

        _UniffiFfiConverterBytes.check_lower(bytes)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(bytes),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_photo,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def change_pin(self, person: str,old_pin: str,new_pin: str) -> None:
        """
        Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
        the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.

        # Errors
        - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
        - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
"""

        _UniffiFfiConverterString.check_lower(person)

        _UniffiFfiConverterString.check_lower(old_pin)

        _UniffiFfiConverterString.check_lower(new_pin)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
            _UniffiFfiConverterString.lower(old_pin),
            _UniffiFfiConverterString.lower(new_pin),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_change_pin,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def device(self, ) -> str:
        """
        This device's id: its public key, 64 hexadecimal digits. Never fails.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = None
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_device,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def drafts(self, ) -> str:
        """
        Every text that `set_draft` keeps, as a JSON object from key to text.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_drafts,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrol_request(self, code: str,name: str,organisation_key: str,server_time: int) -> bytes:
        """
        The body of the request that enrols this device: signed by the device's key, with a one-time code from
        the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.

        Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
        `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
        in the office's link before the code leaves this device. `name` is what the office calls this device.

        # Errors
        - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
        - `Refused`: the request could not be encoded.
"""

        _UniffiFfiConverterString.check_lower(code)

        _UniffiFfiConverterString.check_lower(name)

        _UniffiFfiConverterString.check_lower(organisation_key)

        _UniffiFfiConverterInt64.check_lower(server_time)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(code),
            _UniffiFfiConverterString.lower(name),
            _UniffiFfiConverterString.lower(organisation_key),
            _UniffiFfiConverterInt64.lower(server_time),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrol_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrolled(self, organisation_key: str,certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
        `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
        `key_statements`, call `enrolled_with` instead.

        # Errors
        - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
        - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
        kept.
        - `NotStored`: the disk failed or is full.
"""

        _UniffiFfiConverterString.check_lower(organisation_key)

        _UniffiFfiConverterBytes.check_lower(certificate)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(organisation_key),
            _UniffiFfiConverterBytes.lower(certificate),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrolled_with(self, organisation_key: str,key_statements: typing.List[bytes],certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
        another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
        `key_statements`, in their order.

        # Errors
        As `enrolled`.
"""

        _UniffiFfiConverterString.check_lower(organisation_key)

        _UniffiFfiConverterSequenceBytes.check_lower(key_statements)

        _UniffiFfiConverterBytes.check_lower(certificate)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(organisation_key),
            _UniffiFfiConverterSequenceBytes.lower(key_statements),
            _UniffiFfiConverterBytes.lower(certificate),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled_with,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def find(self, text: str) -> str:
        """
        The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
        `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
        to case. The list is empty when `text` has neither.

        # Errors
        None today.
"""

        _UniffiFfiConverterString.check_lower(text)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(text),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_find,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def fit_to_unload(self, visit: str,operator: str) -> typing.List[str]:
        """
        Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
        a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
        that a car is safe: a person decides and signs.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
        procedure has no such gate, or this device may not sign it.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_fit_to_unload,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def forget_person_key(self, person: str) -> None:
        """
        Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
        office ends it in the roster, and the person makes a new one with `make_person_key`.

        # Errors
        - `NoKey`: the person has no key on this device.
        - `NotStored`: the disk failed or is full. The key is then still here.
"""

        _UniffiFfiConverterString.check_lower(person)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_forget_person_key,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def keep_beside(self, secret: bytes) -> None:
        """
        Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
        once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
        it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
        memory only.

        # Errors
        - `WrongCall`: the secret has not 32 bytes.
"""

        _UniffiFfiConverterBytes.check_lower(secret)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(secret),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_keep_beside,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def lock_people(self, ) -> None:
        """
        Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = None
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_lock_people,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def log_receive(self, reply: bytes) -> str:
        """
        Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
        [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
        `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
        1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
        sync goes on, and `status` keeps it.

        # Errors
        - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
        called again.
        - `WrongCall`: the log was not asked for.
        - `NotStored`: the disk failed or is full.
"""

        _UniffiFfiConverterBytes.check_lower(reply)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(reply),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_receive,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def log_request(self, ) -> typing.Optional[bytes]:
        """
        The body of the next request about the office's log, for after a sync: send it with `POST` to the
        office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
        Call this again when `log_receive` says that it is not done, or when a reply got lost.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterOptionalBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def make_person_key(self, person: str,pin: str) -> str:
        """
        Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
        so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
        digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.

        # Errors
        - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
        - `HasKey`: the person has a key on this device already.
        - `NotEnrolled`: no office has enrolled this device.
        - `WrongCall`: `keep_beside` was not called, or `person` is blank.
        - `Refused`: `person` is no code, or this device may not say so.
        - `NotStored`: the disk failed or is full. No key was made.
"""

        _UniffiFfiConverterString.check_lower(person)

        _UniffiFfiConverterString.check_lower(pin)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
            _UniffiFfiConverterString.lower(pin),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_make_person_key,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def new_site(self, ) -> str:
        """
        A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
        is recorded. Never fails.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = None
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_new_site,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def open_visit(self, opening: str,operator: str) -> str:
        """
        Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
        visit is on the disk when this returns.

        `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
        read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
        `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
        `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
        organisation published for the site is taken, or else the built-in procedure. `operator` is the code
        of the person who begins the visit: 1 to 64 printable characters, no
        blank at its ends.

        # Errors
        - `WrongCall`: `opening` is other JSON, or `operator` is blank.
        - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
        would be larger than 32 KiB, or this device may not begin visits at that site.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(opening)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(opening),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_open_visit,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def over(self, _from: int,most: int) -> str:
        """
        How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
        "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
        many are returned at most; both are counts from 0 to 4294967295.

        # Errors
        None today.
"""

        _UniffiFfiConverterUInt32.check_lower(_from)

        _UniffiFfiConverterUInt32.check_lower(most)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterUInt32.lower(_from),
            _UniffiFfiConverterUInt32.lower(most),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_over,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def override_items(self, visit: str,gate: str,items: typing.List[str],reason: str,operator: str) -> typing.List[str]:
        """
        Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
        the entry's id in a list of one: 64 hexadecimal digits.

        `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
        `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
        (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
        `visit` and `operator` are as for `settle`.

        # Errors
        - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
        device.
        - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
        device may not override.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(gate)

        _UniffiFfiConverterSequenceString.check_lower(items)

        _UniffiFfiConverterString.check_lower(reason)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(gate),
            _UniffiFfiConverterSequenceString.lower(items),
            _UniffiFfiConverterString.lower(reason),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_override_items,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def pass_over(self, visit: str,blocker: str,why: str,operator: str) -> typing.List[str]:
        """
        Passes over one thing that speaks against release, with a reason that the record shows for ever.
        Returns the entry's id in a list of one: 64 hexadecimal digits.

        `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
        as free text, required. `visit` and `operator` are as for `settle`.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
        not pass over.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(blocker)

        _UniffiFfiConverterString.check_lower(why)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(blocker),
            _UniffiFfiConverterString.lower(why),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_over,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def pass_request(self, ) -> bytes:
        """
        The body of the signed request for a pass, which lets this device send photographs to the office and
        fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def people(self, ) -> str:
        """
        The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
        `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
        code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
        one. `trained_on` is a date `YYYY-MM-DD`.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_people,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def people_here(self, ) -> str:
        """
        Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
        {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
        confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.

        `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
        `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
        `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
        groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
        the device is enrolled, and `keep_beside` was called.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_people_here,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photo_taken(self, sha256: str,length: int,media: str) -> str:
        """
        Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
        as JSON: `{sha256, length, media}`.

        `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
        is the media type, such as `image/jpeg`.

        # Errors
        - `WrongCall`: `sha256` has not 64 hexadecimal digits.
        - `NotStored`: the disk failed or is full.
"""

        _UniffiFfiConverterString.check_lower(sha256)

        _UniffiFfiConverterUInt64.check_lower(length)

        _UniffiFfiConverterString.check_lower(media)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(sha256),
            _UniffiFfiConverterUInt64.lower(length),
            _UniffiFfiConverterString.lower(media),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photo_taken,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photos_of(self, visits: typing.List[str]) -> str:
        """
        The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
        length, media}` with `length` in bytes. Those that the office is not known to hold come first.
        `visits` are ids of 32 hexadecimal digits.

        # Errors
        - `WrongCall`: an id cannot be read.
        - `NotStored`: the disk cannot be read.
"""

        _UniffiFfiConverterSequenceString.check_lower(visits)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterSequenceString.lower(visits),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_of,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photos_waiting(self, ) -> str:
        """
        The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
        with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
        sending them shortens the list.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_waiting,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def preview(self, visit: str,drafts: str,operator: str) -> str:
        """
        The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
        kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.

        `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.

        # Errors
        - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: as `append` would refuse.
        - `NotStored`: the disk cannot be read.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(drafts)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(drafts),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_preview,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def record_step(self, visit: str,step: str,outcome: str,note: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
        Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.

        `step` is the step's id in the procedure, with its fitting where the step repeats:
        `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
        free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
        `operator` are as for `append`, and `drafts` may be `[]`.

        # Errors
        - `WrongCall`: an argument cannot be read, or `outcome` is another word.
        - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(step)

        _UniffiFfiConverterString.check_lower(outcome)

        _UniffiFfiConverterString.check_lower(note)

        _UniffiFfiConverterString.check_lower(drafts)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(step),
            _UniffiFfiConverterString.lower(outcome),
            _UniffiFfiConverterString.lower(note),
            _UniffiFfiConverterString.lower(drafts),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_record_step,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def release(self, visit: str,as_residue: bool,operator: str) -> typing.List[str]:
        """
        Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.

        `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
        `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.

        # Errors
        - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
        or this device may not release.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterBoolean.check_lower(as_residue)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterBoolean.lower(as_residue),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_release,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def set_draft(self, key: str,text: str) -> None:
        """
        Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
        empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
        this device.

        # Errors
        - `NotStored`: the disk failed or is full.
"""

        _UniffiFfiConverterString.check_lower(key)

        _UniffiFfiConverterString.check_lower(text)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(key),
            _UniffiFfiConverterString.lower(text),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_set_draft,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def settle(self, visit: str,keeps: str,why: str,operator: str) -> typing.List[str]:
        """
        Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
        id of the settlement in a list of one: 64 hexadecimal digits.

        `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
        text, required. `operator` is as for `append`.

        # Errors
        - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(keeps)

        _UniffiFfiConverterString.check_lower(why)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(keeps),
            _UniffiFfiConverterString.lower(why),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_settle,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def show(self, visit: str) -> str:
        """
        A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.

        # Errors
        - `WrongCall`: the id cannot be read, or the visit is not on this device.
"""

        _UniffiFfiConverterString.check_lower(visit)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_show,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sites(self, ) -> str:
        """
        The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
        `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
        seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
        level with its unit, or null.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sites,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def standing(self, ) -> str:
        """
        The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
        at the site, or the office has not given receipts for all of the stay. This is what a phone shows
        first.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_standing,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def status(self, ) -> str:
        """
        How this device stands, as a JSON object:
        - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
        null. 64 hexadecimal digits each.
        - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
        receipt for.
        - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
        things from outside were refused and kept aside.
        - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
        when never compared.
        - `damaged`: the ids of entries whose rows on the disk are damaged.
        - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
        entries}]`, with the site's id and two counts.
        - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
        times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
        - `version`: the version of the core.

        # Errors
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_status,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_receive(self, reply: bytes) -> str:
        """
        Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
        set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.

        `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
        (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
        sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
        takes some things later, or null. `revoked` says that the office has revoked this device.
        `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
        documents that still differ, as `append` names them. `left` lists the documents that left this device, which
        no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
        that left with them, whose bytes are the caller's to delete.

        # Errors
        - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
        in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
        - `WrongCall`: no sync was begun.
        - `NotStored`: the disk failed or is full.
        - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
        again next time.
"""

        _UniffiFfiConverterBytes.check_lower(reply)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(reply),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_receive,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_request(self, ) -> bytes:
        """
        The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
        got lost.

        # Errors
        - `WrongCall`: no sync was begun, or the last one is done.
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_start(self, ) -> None:
        """
        Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
        with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
        broken off is forgotten; what it brought is kept.

        # Errors
        - `NotEnrolled`: no office has enrolled this device.
        - `NotStored`: the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_start,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def unlock_person(self, person: str,pin: str) -> None:
        """
        Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
        shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
        second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
        they are made.

        # Errors
        - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
        - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
        - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
        - `KeyEnded`: the office ended the key.
        - `NoKey`: the person has no key on this device.
        - `WeakPin`: the PIN has not six digits; no try was counted.
        - `WrongCall`: `keep_beside` was not called.
        - `Refused`: what was kept of the key is damaged.
        - `NotStored`: the disk failed or is full.
"""

        _UniffiFfiConverterString.check_lower(person)

        _UniffiFfiConverterString.check_lower(pin)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
            _UniffiFfiConverterString.lower(pin),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_unlock_person,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def visit(self, visit: str) -> str:
        """
        A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
        seals, photographs, disagreements, blockers, findings, and the history as sentences.

        `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
        are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.

        # Errors
        - `WrongCall`: the id cannot be read, or the visit is not on this device.
"""

        _UniffiFfiConverterString.check_lower(visit)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_visit,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def visits(self, ) -> str:
        """
        One row for each stay on this device, as a JSON list.

        A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
        disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
        joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
        `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
        `unreceipted` are counts.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_visits,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def withdraw(self, visit: str,entry: str,why: str,operator: str) -> typing.List[str]:
        """
        Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
        of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
        the entry that is taken back.

        # Errors
        - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
        - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
        back.
        - `NotStored`: the disk failed or is full. Nothing was recorded.
"""

        _UniffiFfiConverterString.check_lower(visit)

        _UniffiFfiConverterString.check_lower(entry)

        _UniffiFfiConverterString.check_lower(why)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
            _UniffiFfiConverterString.lower(entry),
            _UniffiFfiConverterString.lower(why),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterSequenceString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_withdraw,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)





class _UniffiFfiConverterTypeBook:
    @staticmethod
    def lift(value: int) -> Book:
        return Book._uniffi_make_instance(value)

    @staticmethod
    def check_lower(value: Book):
        if not isinstance(value, Book):
            raise TypeError("Expected Book instance, {} found".format(type(value).__name__))

    @staticmethod
    def lower(value: Book) -> ctypes.c_uint64:
        return value._uniffi_clone_handle()

    @classmethod
    def read(cls, buf: _UniffiRustBuffer) -> Book:
        ptr = buf.read_u64()
        if ptr == 0:
            raise InternalError("Raw handle value was null")
        return cls.lift(ptr)

    @classmethod
    def write(cls, value: Book, buf: _UniffiRustBuffer):
        buf.write_u64(cls.lower(value))

class _UniffiFfiConverterOptionalString(_UniffiConverterRustBuffer):
    @classmethod
    def check_lower(cls, value):
        if value is not None:
            _UniffiFfiConverterString.check_lower(value)

    @classmethod
    def write(cls, value, buf):
        if value is None:
            buf.write_u8(0)
            return

        buf.write_u8(1)
        _UniffiFfiConverterString.write(value, buf)

    @classmethod
    def read(cls, buf):
        flag = buf.read_u8()
        if flag == 0:
            return None
        elif flag == 1:
            return _UniffiFfiConverterString.read(buf)
        else:
            raise InternalError("Unexpected flag byte for optional type")

class _UniffiFfiConverterUInt8(_UniffiConverterPrimitiveInt):
    CLASS_NAME = "u8"
    VALUE_MIN = 0
    VALUE_MAX = 2**8

    @staticmethod
    def read(buf):
        return buf.read_u8()

    @staticmethod
    def write(value, buf):
        buf.write_u8(value)
def calculate(formula: str,line: str) -> str:
    """
    Computes one formula. `formula` is its name, `line` one JSON object with its inputs, as `farsiding calc`
    takes it: `calculate("ctl", "{\"temp_f\": 80, \"rd60\": 0.51}")`. `formulas` lists names, inputs, units
    and ranges. Every number's key may be followed by the same key with `_pm`: its ± at 95 %, in the same
    unit.

    Returns one JSON object: `{ok: true, value, unit, plus_minus, formula, source, findings, …}` with
    `plus_minus` at 95 % in the unit of `value`, or `{ok: false, error, message}`. Never fails: what is wrong
    with the line is said there.
"""

    _UniffiFfiConverterString.check_lower(formula)

    _UniffiFfiConverterString.check_lower(line)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(formula),
        _UniffiFfiConverterString.lower(line),
    )
    _uniffi_lift_return = _UniffiFfiConverterString.lift
    _uniffi_error_converter = None
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_calculate,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def core_version() -> str:
    """
    The version of the core as `major.minor.patch`, for an about page and for support. Never fails.
"""
    _uniffi_lowered_args = (
    )
    _uniffi_lift_return = _UniffiFfiConverterString.lift
    _uniffi_error_converter = None
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_core_version,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def formulas() -> str:
    """
    Every formula, as a JSON list of `{name, about, unit, inputs, method, source, wrong_when}`. An input of
    the kind `number` is `{key, about, kind, name, unit, low, high, presumed_half_width, required, default?}`:
    `low` and `high` are its range in `unit`. Never fails.
"""
    _uniffi_lowered_args = (
    )
    _uniffi_lift_return = _UniffiFfiConverterString.lift
    _uniffi_error_converter = None
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_formulas,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def new_key() -> bytes:
    """
    A new secret of 32 random bytes: a device's key for `Book::open`, or the secret for `keep_beside`. The
    caller keeps it where the platform keeps secrets. Whoever loses a device's key cannot open its book as
    that device again.

    # Errors
    - `NoStorage`: the platform has no randomness.
"""
    _uniffi_lowered_args = (
    )
    _uniffi_lift_return = _UniffiFfiConverterBytes.lift
    _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_new_key,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def pin_may_be_chosen(pin: str) -> None:
    """
    Returns where `pin` may be chosen as a PIN: six decimal digits, not one digit or one pair or triple over
    and over, and no run up or down.

    # Errors
    - `WeakPin`: the PIN is none of these; `why` says which rule it broke.
"""

    _UniffiFfiConverterString.check_lower(pin)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(pin),
    )
    _uniffi_lift_return = lambda val: None
    _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_pin_may_be_chosen,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def pin_storage_key(pin: str,beside: bytes,salt: bytes) -> bytes:
    """
    The key of 32 bytes that a shell seals its storage under, where a PIN opens the phone. It is derived by
    Argon2id with 64 MiB and three passes, which takes about a second.

    `pin` has six decimal digits, `beside` is the secret of 32 bytes that `keep_beside` takes, and `salt` has
    16 random bytes that are kept with what is sealed.

    # Errors
    - `WeakPin`: the PIN has not six digits.
    - `WrongCall`: `beside` has not 32 bytes, or `salt` has not 16.
"""

    _UniffiFfiConverterString.check_lower(pin)

    _UniffiFfiConverterBytes.check_lower(beside)

    _UniffiFfiConverterBytes.check_lower(salt)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(pin),
        _UniffiFfiConverterBytes.lower(beside),
        _UniffiFfiConverterBytes.lower(salt),
    )
    _uniffi_lift_return = _UniffiFfiConverterBytes.lift
    _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_pin_storage_key,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
async def prepare_storage(folder: str) -> None:
    """
    Makes `folder` ready for books. Wait for it before `Book::open`; calling it again changes nothing.

    Natively `folder` is a path, and the folder is made with those above it. In a browser `folder` is a folder
    of the origin's private file system; the call must be made in a dedicated worker and takes hold of that
    folder, which one worker at a time can do.

    # Errors
    - `NoStorage`: the folder cannot be made, or the browser keeps nothing durable (a private window).
    - `OpenElsewhere`: another tab holds the folder (browsers only).
    - `NotStored`: the browser gives no more room (browsers only).
"""

    _UniffiFfiConverterString.check_lower(folder)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(folder),
    )
    _uniffi_lift_return = lambda val: None
    _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
    return await _uniffi_rust_call_async(
        _UniffiLib.uniffi_farsiding_bindings_fn_func_prepare_storage(*_uniffi_lowered_args),
        _UniffiLib.ffi_farsiding_bindings_rust_future_poll_void,
        _UniffiLib.ffi_farsiding_bindings_rust_future_complete_void,
        _UniffiLib.ffi_farsiding_bindings_rust_future_free_void,
        _uniffi_lift_return,
        _uniffi_error_converter,
    )
def read_amount(text: str,unit: str,decimal_mark: typing.Optional[str]) -> ReadAmount:
    """
    Reads a text that somebody typed where an amount in `unit` is asked for. A text that is no amount is no
    error: the answer says so, and the text is kept.

    `unit` is a unit's symbol, such as `psi` (gauge), `psia`, `°F`, `gal`, `lb`, `in` or `%`. Where the text
    names another unit of the same kind, that unit is taken: `8 bar` for `psi`. `decimal_mark` is `.` or `,`,
    the mark that is usual where the text was typed. Without it a text that says two things (`32,650`,
    `1.234`) is answered with both.

    # Errors
    - `WrongCall`: `unit` is no symbol that the core knows (`why` lists all), or `decimal_mark` is another
    mark.
"""

    _UniffiFfiConverterString.check_lower(text)

    _UniffiFfiConverterString.check_lower(unit)

    _UniffiFfiConverterOptionalString.check_lower(decimal_mark)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(text),
        _UniffiFfiConverterString.lower(unit),
        _UniffiFfiConverterOptionalString.lower(decimal_mark),
    )
    _uniffi_lift_return = _UniffiFfiConverterTypeReadAmount.lift
    _uniffi_error_converter = _UniffiFfiConverterTypeFarsidingError
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_read_amount,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)

__all__ = [
    "InternalError",
    "FarsidingError",
    "AmountReading",
    "Picture",
    "ReadAmount",
    "calculate",
    "core_version",
    "formulas",
    "new_key",
    "pin_may_be_chosen",
    "pin_storage_key",
    "prepare_storage",
    "read_amount",
    "Book",
    "BookProtocol",
]
