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
    if lib.uniffi_farsiding_bindings_checksum_func_calculate() != 57635:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_core_version() != 5233:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_formulas() != 59462:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_new_key() != 36954:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() != 63421:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_pin_storage_key() != 6534:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_prepare_storage() != 59990:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_func_read_amount() != 39637:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_constructor_book_open() != 946:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_append() != 54987:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_binds() != 14993:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carried_photo() != 24168:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_in() != 6974:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_out() != 23899:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_carry_photo() != 63051:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_change_pin() != 64846:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_device() != 9324:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_drafts() != 19836:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrol_request() != 1650:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrolled() != 58253:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_enrolled_with() != 46008:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_find() != 24144:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_forget_person_key() != 8353:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_keep_beside() != 17064:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_lock_people() != 35549:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_log_receive() != 56512:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_log_request() != 60942:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_make_person_key() != 19135:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_new_site() != 47209:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_open_visit() != 37032:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_over() != 52897:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_pass_over() != 42777:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_pass_request() != 43067:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_people() != 58133:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_people_here() != 61734:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photo_taken() != 45557:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photos_of() != 21127:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_photos_waiting() != 21381:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_preview() != 38799:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_record_step() != 44668:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_release() != 47381:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_set_draft() != 47434:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_settle() != 39182:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_show() != 57003:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sites() != 32737:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_standing() != 2301:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_status() != 61795:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_receive() != 6041:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_request() != 49957:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_sync_start() != 60695:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_unlock_person() != 59843:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_visit() != 26207:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_visits() != 55744:
        raise InternalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    if lib.uniffi_farsiding_bindings_checksum_method_book_withdraw() != 8616:
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
    A reading of what was typed.
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
    What was typed, read: one amount, or two to choose from, or none and why.
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



# Trouble
# We want to define each variant as a nested class that's also a subclass,
# which is tricky in Python.  To accomplish this we're going to create each
# class separately, then manually add the child classes to the base class's
# __dict__.  All of this happens in dummy class to avoid polluting the module
# namespace.
class Trouble(Exception):
    """
    What went wrong, as far as the caller can do something about it.

    `why` is for the log and the support call, in English, never the only thing shown.
"""
    pass

_UniffiTempTrouble = Trouble

class Trouble:  # type: ignore
    """
    What went wrong, as far as the caller can do something about it.

    `why` is for the log and the support call, in English, never the only thing shown.
"""

    class OpenElsewhere(_UniffiTempTrouble):
        """
        Another tab, window or program holds the book: use that one, or close it.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.OpenElsewhere({})".format(str(self))
    _UniffiTempTrouble.OpenElsewhere = OpenElsewhere # type: ignore
    class NoStorage(_UniffiTempTrouble):
        """
        This place cannot keep records (private window, no such folder, no permission): use another.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.NoStorage({})".format(str(self))
    _UniffiTempTrouble.NoStorage = NoStorage # type: ignore
    class NotStored(_UniffiTempTrouble):
        """
        The disk refused or is full: free space, then try again. Nothing was lost that was confirmed.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.NotStored({})".format(str(self))
    _UniffiTempTrouble.NotStored = NotStored # type: ignore
    class Refused(_UniffiTempTrouble):
        """
        What was handed over is not what it claims to be, so it was refused whole.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.Refused({})".format(str(self))
    _UniffiTempTrouble.Refused = Refused # type: ignore
    class NotTheOffice(_UniffiTempTrouble):
        """
        What answered is not the office server: a login page in between, or another address.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.NotTheOffice({})".format(str(self))
    _UniffiTempTrouble.NotTheOffice = NotTheOffice # type: ignore
    class NotEnrolled(_UniffiTempTrouble):
        """
        This device has not been enrolled yet: records are kept, but nothing is sent.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.NotEnrolled({})".format(str(self))
    _UniffiTempTrouble.NotEnrolled = NotEnrolled # type: ignore
    class WeakPin(_UniffiTempTrouble):
        """
        A PIN that is not six digits, or among the first that anybody tries: choose another.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.WeakPin({})".format(str(self))
    _UniffiTempTrouble.WeakPin = WeakPin # type: ignore
    class WrongPin(_UniffiTempTrouble):
        """
        The PIN was wrong: try again, or say it is forgotten.
"""

        def __init__(self, why, left):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "left={!r}".format(left),
            ]))
            self.why = why
            self.left = left

        def __repr__(self):
            return "Trouble.WrongPin({})".format(str(self))
    _UniffiTempTrouble.WrongPin = WrongPin # type: ignore
    class PinWaits(_UniffiTempTrouble):
        """
        Too many wrong tries: wait, or say it is forgotten.
"""

        def __init__(self, why, until):
            super().__init__(", ".join([
                "why={!r}".format(why),
                "until={!r}".format(until),
            ]))
            self.why = why
            self.until = until

        def __repr__(self):
            return "Trouble.PinWaits({})".format(str(self))
    _UniffiTempTrouble.PinWaits = PinWaits # type: ignore
    class KeyLocked(_UniffiTempTrouble):
        """
        The key is locked here for good: tell the office, and make a new one.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.KeyLocked({})".format(str(self))
    _UniffiTempTrouble.KeyLocked = KeyLocked # type: ignore
    class KeyEnded(_UniffiTempTrouble):
        """
        The office ended the key: make a new one.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.KeyEnded({})".format(str(self))
    _UniffiTempTrouble.KeyEnded = KeyEnded # type: ignore
    class NoKey(_UniffiTempTrouble):
        """
        This person has no key here: make one, or go on without.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.NoKey({})".format(str(self))
    _UniffiTempTrouble.NoKey = NoKey # type: ignore
    class HasKey(_UniffiTempTrouble):
        """
        This person has a key here already: unlock it, or say its PIN is forgotten.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.HasKey({})".format(str(self))
    _UniffiTempTrouble.HasKey = HasKey # type: ignore
    class WrongCall(_UniffiTempTrouble):
        """
        A mistake in the calling program, such as a key of the wrong length.
"""

        def __init__(self, why):
            super().__init__(", ".join([
                "why={!r}".format(why),
            ]))
            self.why = why

        def __repr__(self):
            return "Trouble.WrongCall({})".format(str(self))
    _UniffiTempTrouble.WrongCall = WrongCall # type: ignore

Trouble = _UniffiTempTrouble # type: ignore
del _UniffiTempTrouble


class _UniffiFfiConverterTypeTrouble(_UniffiConverterRustBuffer):
    @staticmethod
    def read(buf):
        variant = buf.read_i32()
        if variant == 1:
            return Trouble.OpenElsewhere(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 2:
            return Trouble.NoStorage(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 3:
            return Trouble.NotStored(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 4:
            return Trouble.Refused(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 5:
            return Trouble.NotTheOffice(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 6:
            return Trouble.NotEnrolled(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 7:
            return Trouble.WeakPin(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 8:
            return Trouble.WrongPin(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterUInt32.read(buf),
            )
        if variant == 9:
            return Trouble.PinWaits(
                _UniffiFfiConverterString.read(buf),
                _UniffiFfiConverterInt64.read(buf),
            )
        if variant == 10:
            return Trouble.KeyLocked(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 11:
            return Trouble.KeyEnded(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 12:
            return Trouble.NoKey(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 13:
            return Trouble.HasKey(
                _UniffiFfiConverterString.read(buf),
            )
        if variant == 14:
            return Trouble.WrongCall(
                _UniffiFfiConverterString.read(buf),
            )
        raise InternalError("Raw enum value doesn't match any cases")

    @staticmethod
    def check_lower(value):
        if isinstance(value, Trouble.OpenElsewhere):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.NoStorage):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.NotStored):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.Refused):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.NotTheOffice):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.NotEnrolled):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.WeakPin):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.WrongPin):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterUInt32.check_lower(value.left)
            return
        if isinstance(value, Trouble.PinWaits):
            _UniffiFfiConverterString.check_lower(value.why)
            _UniffiFfiConverterInt64.check_lower(value.until)
            return
        if isinstance(value, Trouble.KeyLocked):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.KeyEnded):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.NoKey):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.HasKey):
            _UniffiFfiConverterString.check_lower(value.why)
            return
        if isinstance(value, Trouble.WrongCall):
            _UniffiFfiConverterString.check_lower(value.why)
            return

    @staticmethod
    def write(value, buf):
        if isinstance(value, Trouble.OpenElsewhere):
            buf.write_i32(1)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.NoStorage):
            buf.write_i32(2)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.NotStored):
            buf.write_i32(3)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.Refused):
            buf.write_i32(4)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.NotTheOffice):
            buf.write_i32(5)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.NotEnrolled):
            buf.write_i32(6)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.WeakPin):
            buf.write_i32(7)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.WrongPin):
            buf.write_i32(8)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterUInt32.write(value.left, buf)
        if isinstance(value, Trouble.PinWaits):
            buf.write_i32(9)
            _UniffiFfiConverterString.write(value.why, buf)
            _UniffiFfiConverterInt64.write(value.until, buf)
        if isinstance(value, Trouble.KeyLocked):
            buf.write_i32(10)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.KeyEnded):
            buf.write_i32(11)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.NoKey):
            buf.write_i32(12)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.HasKey):
            buf.write_i32(13)
            _UniffiFfiConverterString.write(value.why, buf)
        if isinstance(value, Trouble.WrongCall):
            buf.write_i32(14)
            _UniffiFfiConverterString.write(value.why, buf)

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
    An open book. Calls are serialised; none keeps a lock after it returns.
"""

    def append(self, subject: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
        when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.

        # Errors
        `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
        `NotStored` when the disk refuses.
"""
        raise NotImplementedError
    def binds(self, drafts: str) -> bool:
        """
        Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.

        # Errors
        `WrongCall` for other JSON.
"""
        raise NotImplementedError
    def carried_photo(self, ) -> typing.Optional[Picture]:
        """
        Hands over the next photograph of the carry file taken in last, once; nothing when there are no
        more. The shell keeps the bytes and says so with `photo_taken`.
"""
        raise NotImplementedError
    def carry_in(self, file: bytes) -> str:
        """
        Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
        to be had from `carried_photo`.

        # Errors
        `Refused` when it is none.
"""
        raise NotImplementedError
    def carry_out(self, visits: typing.List[str]) -> bytes:
        """
        Writes visits with their cars, sites and people into a carry file, with the photographs handed to
        `carry_photo` since the last one.

        # Errors
        `WrongCall` for an unknown visit.
"""
        raise NotImplementedError
    def carry_photo(self, bytes: bytes) -> None:
        """
        Takes a photograph's exact bytes for the next carry file, one at a time.

        # Errors
        `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
"""
        raise NotImplementedError
    def change_pin(self, person: str,old_pin: str,new_pin: str) -> None:
        """
        Gives a person's key another PIN. Takes about two seconds.

        # Errors
        As `unlock_person`, and `WeakPin`; the old PIN then stays.
"""
        raise NotImplementedError
    def device(self, ) -> str:
        """
        This device: its public key in hexadecimal.
"""
        raise NotImplementedError
    def drafts(self, ) -> str:
        """
        Everything half typed, as JSON: key -> text.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        raise NotImplementedError
    def enrol_request(self, code: str,name: str,organisation_key: str,server_time: int) -> bytes:
        """
        The signed request to send to the office's enrolment address with a one-time code. The office says
        its key and its time (milliseconds since 1970) when that address is asked who it is.

        # Errors
        `WrongCall` when the key is none.
"""
        raise NotImplementedError
    def enrolled(self, organisation_key: str,certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment.

        # Errors
        `Refused` when the certificate is not this device's or not that organisation's.
"""
        raise NotImplementedError
    def enrolled_with(self, organisation_key: str,key_statements: typing.List[bytes],certificate: bytes) -> None:
        """
        As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
        that signed the certificate may be one the root named.

        # Errors
        As `enrolled`.
"""
        raise NotImplementedError
    def find(self, text: str) -> str:
        """
        Rows of stays whose car number, seal number or spot contains `text`, as JSON.

        # Errors
        None today.
"""
        raise NotImplementedError
    def forget_person_key(self, person: str) -> None:
        """
        Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
        it signed stays signed.

        # Errors
        `NoKey`, `NotStored`.
"""
        raise NotImplementedError
    def keep_beside(self, secret: bytes) -> None:
        """
        Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
        with `new_key` and apart from the book's own storage. PINs are worth nothing without it.

        # Errors
        `WrongCall` for another length.
"""
        raise NotImplementedError
    def lock_people(self, ) -> None:
        """
        Forgets whoever is unlocked: the shift is over, or the phone changes hands.
"""
        raise NotImplementedError
    def log_receive(self, reply: bytes) -> str:
        """
        Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
        [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.

        # Errors
        `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
"""
        raise NotImplementedError
    def log_request(self, ) -> typing.Optional[bytes]:
        """
        The next request's body for the office's log address, after a sync; nothing when there is nothing to
        ask. Call again after `log_receive` says more is to come, or when a reply got lost.

        # Errors
        `NotEnrolled`.
"""
        raise NotImplementedError
    def make_person_key(self, person: str,pin: str) -> str:
        """
        Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
        about a second. Returns the key's sixteen digits, for the telephone.

        # Errors
        `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
"""
        raise NotImplementedError
    def new_site(self, ) -> str:
        """
        A new site's id, for its first entry.
"""
        raise NotImplementedError
    def open_visit(self, opening: str,operator: str) -> str:
        """
        Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
        default. Returns the visit's id.

        # Errors
        `WrongCall` for other JSON, `NotStored` when the disk refuses.
"""
        raise NotImplementedError
    def over(self, _from: int,most: int) -> str:
        """
        How many stays are over, and rows of at most `most` of them after the first `from`, begun last
        first. JSON: `{of, rows}`.

        # Errors
        None today.
"""
        raise NotImplementedError
    def pass_over(self, visit: str,blocker: str,why: str,operator: str) -> typing.List[str]:
        """
        Passes over a blocker, with a reason that the record shows for ever.

        # Errors
        `Refused` without a reason, or when nothing of that code blocks now.
"""
        raise NotImplementedError
    def pass_request(self, ) -> bytes:
        """
        The signed request for a pass to the office's photographs.

        # Errors
        `NotEnrolled`.
"""
        raise NotImplementedError
    def people(self, ) -> str:
        """
        The people of the organisation, as JSON.

        # Errors
        None today.
"""
        raise NotImplementedError
    def people_here(self, ) -> str:
        """
        Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
        how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
        rules: {operator_rights?, unlocking, signature_required}, can_make}`.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        raise NotImplementedError
    def photo_taken(self, sha256: str,length: int,media: str) -> str:
        """
        Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
        Returns the photograph as statements name it, as JSON.

        # Errors
        `NotStored` when the disk refuses.
"""
        raise NotImplementedError
    def photos_of(self, visits: typing.List[str]) -> str:
        """
        The photographs that visits speak of and whose bytes are here, those first that the office is not
        known to hold. JSON: `[{sha256, length, media}]`.

        # Errors
        `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
"""
        raise NotImplementedError
    def photos_waiting(self, ) -> str:
        """
        Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
        sending them shortens the list.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        raise NotImplementedError
    def preview(self, visit: str,drafts: str,operator: str) -> str:
        """
        The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
        means, with its uncertainty, while it is being typed.

        # Errors
        As `append`.
"""
        raise NotImplementedError
    def record_step(self, visit: str,step: str,outcome: str,note: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.

        # Errors
        As `append`; a skipped step needs a note.
"""
        raise NotImplementedError
    def release(self, visit: str,as_residue: bool,operator: str) -> typing.List[str]:
        """
        Releases the car.

        # Errors
        `Refused`, naming what is still open and was not passed over.
"""
        raise NotImplementedError
    def set_draft(self, key: str,text: str) -> None:
        """
        Keeps something half typed under a key; empty text removes it.

        # Errors
        `NotStored` when the disk refuses.
"""
        raise NotImplementedError
    def settle(self, visit: str,keeps: str,why: str,operator: str) -> typing.List[str]:
        """
        Settles the disagreement that entry `keeps` is part of in its favour.

        # Errors
        `Refused` without a reason, or when nothing disagrees about it.
"""
        raise NotImplementedError
    def show(self, visit: str) -> str:
        """
        A whole stay in plain words.

        # Errors
        As `visit`.
"""
        raise NotImplementedError
    def sites(self, ) -> str:
        """
        The sites known here, by id, as JSON.

        # Errors
        None today.
"""
        raise NotImplementedError
    def standing(self, ) -> str:
        """
        Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
        JSON. What a phone shows first.

        # Errors
        None today.
"""
        raise NotImplementedError
    def status(self, ) -> str:
        """
        How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
        stands, as JSON.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        raise NotImplementedError
    def sync_receive(self, reply: bytes) -> str:
        """
        Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
        ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
        names the records that still differ from the office's.

        # Errors
        `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
        be called again.
"""
        raise NotImplementedError
    def sync_request(self, ) -> bytes:
        """
        The next request's body.

        # Errors
        `WrongCall` before `sync_start`.
"""
        raise NotImplementedError
    def sync_start(self, ) -> None:
        """
        Begins a sync with the office; ask for requests until a reply says done.

        # Errors
        `NotEnrolled`.
"""
        raise NotImplementedError
    def unlock_person(self, person: str,pin: str) -> None:
        """
        Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
        Takes about a second.

        # Errors
        `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
"""
        raise NotImplementedError
    def visit(self, visit: str) -> str:
        """
        A whole stay, as JSON.

        # Errors
        `WrongCall` when it is not on this device.
"""
        raise NotImplementedError
    def visits(self, ) -> str:
        """
        One row per stay, as JSON.

        # Errors
        None today.
"""
        raise NotImplementedError
    def withdraw(self, visit: str,entry: str,why: str,operator: str) -> typing.List[str]:
        """
        Takes an entry back; nothing stands in its place.

        # Errors
        `Refused` without a reason, or when the record has no such entry.
"""
        raise NotImplementedError

class Book(BookProtocol):
    """
    An open book. Calls are serialised; none keeps a lock after it returns.
"""

    _handle: ctypes.c_uint64
    @classmethod
    def open(cls, folder: str,name: str,key: bytes) -> Book:
        """
        Opens or makes the book `name` in `folder`. `key` is the device's 32-byte Ed25519 secret.

        # Errors
        `NoStorage` before `prepare_storage`, `WrongCall` for a key of another length, `Refused` when the
        file was written by a later version.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
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
        Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
        when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.

        # Errors
        `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
        `NotStored` when the disk refuses.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_append,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def binds(self, drafts: str) -> bool:
        """
        Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.

        # Errors
        `WrongCall` for other JSON.
"""

        _UniffiFfiConverterString.check_lower(drafts)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(drafts),
        )
        _uniffi_lift_return = _UniffiFfiConverterBoolean.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_binds,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carried_photo(self, ) -> typing.Optional[Picture]:
        """
        Hands over the next photograph of the carry file taken in last, once; nothing when there are no
        more. The shell keeps the bytes and says so with `photo_taken`.
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
        Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
        to be had from `carried_photo`.

        # Errors
        `Refused` when it is none.
"""

        _UniffiFfiConverterBytes.check_lower(file)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(file),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_in,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carry_out(self, visits: typing.List[str]) -> bytes:
        """
        Writes visits with their cars, sites and people into a carry file, with the photographs handed to
        `carry_photo` since the last one.

        # Errors
        `WrongCall` for an unknown visit.
"""

        _UniffiFfiConverterSequenceString.check_lower(visits)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterSequenceString.lower(visits),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_out,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def carry_photo(self, bytes: bytes) -> None:
        """
        Takes a photograph's exact bytes for the next carry file, one at a time.

        # Errors
        `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
"""

        _UniffiFfiConverterBytes.check_lower(bytes)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(bytes),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_photo,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def change_pin(self, person: str,old_pin: str,new_pin: str) -> None:
        """
        Gives a person's key another PIN. Takes about two seconds.

        # Errors
        As `unlock_person`, and `WeakPin`; the old PIN then stays.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_change_pin,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def device(self, ) -> str:
        """
        This device: its public key in hexadecimal.
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
        Everything half typed, as JSON: key -> text.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_drafts,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrol_request(self, code: str,name: str,organisation_key: str,server_time: int) -> bytes:
        """
        The signed request to send to the office's enrolment address with a one-time code. The office says
        its key and its time (milliseconds since 1970) when that address is asked who it is.

        # Errors
        `WrongCall` when the key is none.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrol_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrolled(self, organisation_key: str,certificate: bytes) -> None:
        """
        Takes the office's answer to an enrolment.

        # Errors
        `Refused` when the certificate is not this device's or not that organisation's.
"""

        _UniffiFfiConverterString.check_lower(organisation_key)

        _UniffiFfiConverterBytes.check_lower(certificate)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(organisation_key),
            _UniffiFfiConverterBytes.lower(certificate),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def enrolled_with(self, organisation_key: str,key_statements: typing.List[bytes],certificate: bytes) -> None:
        """
        As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
        that signed the certificate may be one the root named.

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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled_with,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def find(self, text: str) -> str:
        """
        Rows of stays whose car number, seal number or spot contains `text`, as JSON.

        # Errors
        None today.
"""

        _UniffiFfiConverterString.check_lower(text)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(text),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_find,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def forget_person_key(self, person: str) -> None:
        """
        Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
        it signed stays signed.

        # Errors
        `NoKey`, `NotStored`.
"""

        _UniffiFfiConverterString.check_lower(person)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_forget_person_key,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def keep_beside(self, secret: bytes) -> None:
        """
        Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
        with `new_key` and apart from the book's own storage. PINs are worth nothing without it.

        # Errors
        `WrongCall` for another length.
"""

        _UniffiFfiConverterBytes.check_lower(secret)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(secret),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_keep_beside,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def lock_people(self, ) -> None:
        """
        Forgets whoever is unlocked: the shift is over, or the phone changes hands.
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
        Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
        [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.

        # Errors
        `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
"""

        _UniffiFfiConverterBytes.check_lower(reply)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(reply),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_receive,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def log_request(self, ) -> typing.Optional[bytes]:
        """
        The next request's body for the office's log address, after a sync; nothing when there is nothing to
        ask. Call again after `log_receive` says more is to come, or when a reply got lost.

        # Errors
        `NotEnrolled`.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterOptionalBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def make_person_key(self, person: str,pin: str) -> str:
        """
        Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
        about a second. Returns the key's sixteen digits, for the telephone.

        # Errors
        `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
"""

        _UniffiFfiConverterString.check_lower(person)

        _UniffiFfiConverterString.check_lower(pin)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
            _UniffiFfiConverterString.lower(pin),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_make_person_key,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def new_site(self, ) -> str:
        """
        A new site's id, for its first entry.
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
        Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
        default. Returns the visit's id.

        # Errors
        `WrongCall` for other JSON, `NotStored` when the disk refuses.
"""

        _UniffiFfiConverterString.check_lower(opening)

        _UniffiFfiConverterString.check_lower(operator)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(opening),
            _UniffiFfiConverterString.lower(operator),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_open_visit,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def over(self, _from: int,most: int) -> str:
        """
        How many stays are over, and rows of at most `most` of them after the first `from`, begun last
        first. JSON: `{of, rows}`.

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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_over,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def pass_over(self, visit: str,blocker: str,why: str,operator: str) -> typing.List[str]:
        """
        Passes over a blocker, with a reason that the record shows for ever.

        # Errors
        `Refused` without a reason, or when nothing of that code blocks now.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_over,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def pass_request(self, ) -> bytes:
        """
        The signed request for a pass to the office's photographs.

        # Errors
        `NotEnrolled`.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def people(self, ) -> str:
        """
        The people of the organisation, as JSON.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_people,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def people_here(self, ) -> str:
        """
        Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
        how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
        rules: {operator_rights?, unlocking, signature_required}, can_make}`.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_people_here,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photo_taken(self, sha256: str,length: int,media: str) -> str:
        """
        Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
        Returns the photograph as statements name it, as JSON.

        # Errors
        `NotStored` when the disk refuses.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photo_taken,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photos_of(self, visits: typing.List[str]) -> str:
        """
        The photographs that visits speak of and whose bytes are here, those first that the office is not
        known to hold. JSON: `[{sha256, length, media}]`.

        # Errors
        `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
"""

        _UniffiFfiConverterSequenceString.check_lower(visits)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterSequenceString.lower(visits),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_of,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def photos_waiting(self, ) -> str:
        """
        Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
        sending them shortens the list.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_waiting,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def preview(self, visit: str,drafts: str,operator: str) -> str:
        """
        The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
        means, with its uncertainty, while it is being typed.

        # Errors
        As `append`.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_preview,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def record_step(self, visit: str,step: str,outcome: str,note: str,drafts: str,operator: str) -> typing.List[str]:
        """
        Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.

        # Errors
        As `append`; a skipped step needs a note.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_record_step,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def release(self, visit: str,as_residue: bool,operator: str) -> typing.List[str]:
        """
        Releases the car.

        # Errors
        `Refused`, naming what is still open and was not passed over.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_release,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def set_draft(self, key: str,text: str) -> None:
        """
        Keeps something half typed under a key; empty text removes it.

        # Errors
        `NotStored` when the disk refuses.
"""

        _UniffiFfiConverterString.check_lower(key)

        _UniffiFfiConverterString.check_lower(text)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(key),
            _UniffiFfiConverterString.lower(text),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_set_draft,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def settle(self, visit: str,keeps: str,why: str,operator: str) -> typing.List[str]:
        """
        Settles the disagreement that entry `keeps` is part of in its favour.

        # Errors
        `Refused` without a reason, or when nothing disagrees about it.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_settle,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def show(self, visit: str) -> str:
        """
        A whole stay in plain words.

        # Errors
        As `visit`.
"""

        _UniffiFfiConverterString.check_lower(visit)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_show,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sites(self, ) -> str:
        """
        The sites known here, by id, as JSON.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sites,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def standing(self, ) -> str:
        """
        Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
        JSON. What a phone shows first.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_standing,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def status(self, ) -> str:
        """
        How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
        stands, as JSON.

        # Errors
        `NotStored` when the disk cannot be read.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_status,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_receive(self, reply: bytes) -> str:
        """
        Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
        ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
        names the records that still differ from the office's.

        # Errors
        `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
        be called again.
"""

        _UniffiFfiConverterBytes.check_lower(reply)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterBytes.lower(reply),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_receive,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_request(self, ) -> bytes:
        """
        The next request's body.

        # Errors
        `WrongCall` before `sync_start`.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterBytes.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_request,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def sync_start(self, ) -> None:
        """
        Begins a sync with the office; ask for requests until a reply says done.

        # Errors
        `NotEnrolled`.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_start,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def unlock_person(self, person: str,pin: str) -> None:
        """
        Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
        Takes about a second.

        # Errors
        `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
"""

        _UniffiFfiConverterString.check_lower(person)

        _UniffiFfiConverterString.check_lower(pin)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(person),
            _UniffiFfiConverterString.lower(pin),
        )
        _uniffi_lift_return = lambda val: None
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_unlock_person,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def visit(self, visit: str) -> str:
        """
        A whole stay, as JSON.

        # Errors
        `WrongCall` when it is not on this device.
"""

        _UniffiFfiConverterString.check_lower(visit)
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
            _UniffiFfiConverterString.lower(visit),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_visit,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def visits(self, ) -> str:
        """
        One row per stay, as JSON.

        # Errors
        None today.
"""
        _uniffi_lowered_args = (
            self._uniffi_clone_handle(),
        )
        _uniffi_lift_return = _UniffiFfiConverterString.lift
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
        _uniffi_ffi_result = _uniffi_rust_call_with_error(
            _uniffi_error_converter,
            _UniffiLib.uniffi_farsiding_bindings_fn_method_book_visits,
            *_uniffi_lowered_args,
        )
        return _uniffi_lift_return(_uniffi_ffi_result)
    def withdraw(self, visit: str,entry: str,why: str,operator: str) -> typing.List[str]:
        """
        Takes an entry back; nothing stands in its place.

        # Errors
        `Refused` without a reason, or when the record has no such entry.
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
        _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
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
    Answers one line of JSON for a formula by its name, as `farsiding calc` does. Never fails: what is
    wrong with the line is said in the answer.
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
    Version of the core, as `major.minor.patch`, for the about page and for support.
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
    Every formula with its inputs, ranges and source, as JSON.
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
    A new device key: 32 secret bytes, which the shell keeps where the platform keeps secrets.

    # Errors
    `NoStorage` when the platform has no randomness.
"""
    _uniffi_lowered_args = (
    )
    _uniffi_lift_return = _UniffiFfiConverterBytes.lift
    _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_new_key,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def pin_may_be_chosen(pin: str) -> None:
    """
    Whether these six digits may be chosen for a PIN.

    # Errors
    `WeakPin` when they are not six, or among the first that anybody tries.
"""

    _UniffiFfiConverterString.check_lower(pin)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(pin),
    )
    _uniffi_lift_return = lambda val: None
    _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_pin_may_be_chosen,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
def pin_storage_key(pin: str,beside: bytes,salt: bytes) -> bytes:
    """
    The key that a shell seals its storage under where a PIN opens the phone (Argon2id, 64 MiB, three
    passes): 32 bytes out of six digits, a random salt of 16 bytes and the 32 bytes kept beside. Takes about
    a second.

    # Errors
    `WeakPin` when these are no six digits, `WrongCall` for other lengths.
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
    _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_pin_storage_key,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)
async def prepare_storage(folder: str) -> None:
    """
    Makes `folder` ready for books; wait for it before opening one. Idempotent.

    Natively it creates the folder. In a browser it must run in a dedicated worker and takes hold of the
    origin's private file system, which one worker at a time can do.

    # Errors
    `OpenElsewhere` when another tab holds it, `NoStorage` where nothing durable exists (private window).
"""

    _UniffiFfiConverterString.check_lower(folder)
    _uniffi_lowered_args = (
        _UniffiFfiConverterString.lower(folder),
    )
    _uniffi_lift_return = lambda val: None
    _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
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
    Reads what was typed where an amount in `unit` is asked for, unless the text names another unit of its kind.
    `decimal_mark` (`.` or `,`) is the mark usual where it was typed; without it a text that says two things ("32,650",
    "1.234") is answered with both.

    # Errors
    `WrongCall` when `unit` is no symbol the core knows, or the mark is neither point nor comma.
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
    _uniffi_error_converter = _UniffiFfiConverterTypeTrouble
    _uniffi_ffi_result = _uniffi_rust_call_with_error(
        _uniffi_error_converter,
        _UniffiLib.uniffi_farsiding_bindings_fn_func_read_amount,
        *_uniffi_lowered_args,
    )
    return _uniffi_lift_return(_uniffi_ffi_result)

__all__ = [
    "InternalError",
    "Trouble",
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
