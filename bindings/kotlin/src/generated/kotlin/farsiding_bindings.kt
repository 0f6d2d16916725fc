// @generated from the Rust API by bindings/generate. Do not edit.

@file:Suppress("NAME_SHADOWING")

package farsiding

// Common helper code.
//
// Ideally this would live in a separate .kt file where it can be unittested etc
// in isolation, and perhaps even published as a re-useable package.
//
// However, it's important that the details of how this helper code works (e.g. the
// way that different builtin types are passed across the FFI) exactly match what's
// expected by the Rust code on the other side of the interface. In practice right
// now that means coming from the exact some version of `uniffi` that was used to
// compile the Rust component. The easiest way to ensure this is to bundle the Kotlin
// helpers directly inline like we're doing here.

import com.sun.jna.Library
import com.sun.jna.IntegerType
import com.sun.jna.Native
import com.sun.jna.Pointer
import com.sun.jna.Structure
import com.sun.jna.Callback
import com.sun.jna.ptr.*
import java.nio.ByteBuffer
import java.nio.ByteOrder
import java.nio.CharBuffer
import java.nio.charset.CodingErrorAction
import java.util.concurrent.atomic.AtomicLong
import java.util.concurrent.ConcurrentHashMap
import java.util.concurrent.atomic.AtomicBoolean
import kotlin.coroutines.resume
import kotlinx.coroutines.CancellableContinuation
import kotlinx.coroutines.DelicateCoroutinesApi
import kotlinx.coroutines.GlobalScope
import kotlinx.coroutines.Job
import kotlinx.coroutines.launch
import kotlinx.coroutines.suspendCancellableCoroutine

// This is a helper for safely working with byte buffers returned from the Rust code.
// A rust-owned buffer is represented by its capacity, its current length, and a
// pointer to the underlying data.

/**
 * @suppress
 */
@Structure.FieldOrder("capacity", "len", "data")
open class RustBuffer : Structure() {
    // Note: `capacity` and `len` are actually `ULong` values, but JVM only supports signed values.
    // When dealing with these fields, make sure to call `toULong()`.
    @JvmField var capacity: Long = 0
    @JvmField var len: Long = 0
    @JvmField var data: Pointer? = null

    class ByValue: RustBuffer(), Structure.ByValue
    class ByReference: RustBuffer(), Structure.ByReference

   internal fun setValue(other: RustBuffer) {
        capacity = other.capacity
        len = other.len
        data = other.data
    }

    companion object {
        internal fun alloc(size: ULong = 0UL) = uniffiRustCall() { status ->
            // Note: need to convert the size to a `Long` value to make this work with JVM.
            UniffiLib.ffi_farsiding_bindings_rustbuffer_alloc(size.toLong(), status)
        }.also {
            if(it.data == null) {
               throw RuntimeException("RustBuffer.alloc() returned null data pointer (size=${size})")
           }
        }

        internal fun create(capacity: ULong, len: ULong, data: Pointer?): RustBuffer.ByValue {
            var buf = RustBuffer.ByValue()
            buf.capacity = capacity.toLong()
            buf.len = len.toLong()
            buf.data = data
            return buf
        }

        internal fun free(buf: RustBuffer.ByValue) = uniffiRustCall() { status ->
            UniffiLib.ffi_farsiding_bindings_rustbuffer_free(buf, status)
        }
    }

    @Suppress("TooGenericExceptionThrown")
    fun asByteBuffer() =
        this.data?.getByteBuffer(0, this.len)?.also {
            it.order(ByteOrder.BIG_ENDIAN)
        }
}

// This is a helper for safely passing byte references into the rust code.
// It's not actually used at the moment, because there aren't many things that you
// can take a direct pointer to in the JVM, and if we're going to copy something
// then we might as well copy it into a `RustBuffer`. But it's here for API
// completeness.

@Structure.FieldOrder("len", "data")
internal open class ForeignBytes : Structure() {
    @JvmField var len: Int = 0
    @JvmField var data: Pointer? = null

    class ByValue : ForeignBytes(), Structure.ByValue
}
/**
 * The FfiConverter interface handles converter types to and from the FFI
 *
 * All implementing objects should be public to support external types.  When a
 * type is external we need to import it's FfiConverter.
 *
 * @suppress
 */
public interface FfiConverter<KotlinType, FfiType> {
    // Convert an FFI type to a Kotlin type
    fun lift(value: FfiType): KotlinType

    // Convert an Kotlin type to an FFI type
    fun lower(value: KotlinType): FfiType

    // Read a Kotlin type from a `ByteBuffer`
    fun read(buf: ByteBuffer): KotlinType

    // Calculate bytes to allocate when creating a `RustBuffer`
    //
    // This must return at least as many bytes as the write() function will
    // write. It can return more bytes than needed, for example when writing
    // Strings we can't know the exact bytes needed until we the UTF-8
    // encoding, so we pessimistically allocate the largest size possible (3
    // bytes per codepoint).  Allocating extra bytes is not really a big deal
    // because the `RustBuffer` is short-lived.
    fun allocationSize(value: KotlinType): ULong

    // Write a Kotlin type to a `ByteBuffer`
    fun write(value: KotlinType, buf: ByteBuffer)

    // Lower a value into a `RustBuffer`
    //
    // This method lowers a value into a `RustBuffer` rather than the normal
    // FfiType.  It's used by the callback interface code.  Callback interface
    // returns are always serialized into a `RustBuffer` regardless of their
    // normal FFI type.
    fun lowerIntoRustBuffer(value: KotlinType): RustBuffer.ByValue {
        val rbuf = RustBuffer.alloc(allocationSize(value))
        try {
            val bbuf = rbuf.data!!.getByteBuffer(0, rbuf.capacity).also {
                it.order(ByteOrder.BIG_ENDIAN)
            }
            write(value, bbuf)
            rbuf.writeField("len", bbuf.position().toLong())
            return rbuf
        } catch (e: Throwable) {
            RustBuffer.free(rbuf)
            throw e
        }
    }

    // Lift a value from a `RustBuffer`.
    //
    // This here mostly because of the symmetry with `lowerIntoRustBuffer()`.
    // It's currently only used by the `FfiConverterRustBuffer` class below.
    fun liftFromRustBuffer(rbuf: RustBuffer.ByValue): KotlinType {
        val byteBuf = rbuf.asByteBuffer()!!
        try {
           val item = read(byteBuf)
           if (byteBuf.hasRemaining()) {
               throw RuntimeException("junk remaining in buffer after lifting, something is very wrong!!")
           }
           return item
        } finally {
            RustBuffer.free(rbuf)
        }
    }
}

/**
 * FfiConverter that uses `RustBuffer` as the FfiType
 *
 * @suppress
 */
public interface FfiConverterRustBuffer<KotlinType>: FfiConverter<KotlinType, RustBuffer.ByValue> {
    override fun lift(value: RustBuffer.ByValue) = liftFromRustBuffer(value)
    override fun lower(value: KotlinType) = lowerIntoRustBuffer(value)
}
// A handful of classes and functions to support the generated data structures.
// This would be a good candidate for isolating in its own ffi-support lib.

internal const val UNIFFI_CALL_SUCCESS = 0.toByte()
internal const val UNIFFI_CALL_ERROR = 1.toByte()
internal const val UNIFFI_CALL_UNEXPECTED_ERROR = 2.toByte()

@Structure.FieldOrder("code", "error_buf")
internal open class UniffiRustCallStatus : Structure() {
    @JvmField var code: Byte = 0
    @JvmField var error_buf: RustBuffer.ByValue = RustBuffer.ByValue()

    class ByValue: UniffiRustCallStatus(), Structure.ByValue

    fun isSuccess(): Boolean {
        return code == UNIFFI_CALL_SUCCESS
    }

    fun isError(): Boolean {
        return code == UNIFFI_CALL_ERROR
    }

    fun isPanic(): Boolean {
        return code == UNIFFI_CALL_UNEXPECTED_ERROR
    }

    companion object {
        fun create(code: Byte, errorBuf: RustBuffer.ByValue): UniffiRustCallStatus.ByValue {
            val callStatus = UniffiRustCallStatus.ByValue()
            callStatus.code = code
            callStatus.error_buf = errorBuf
            return callStatus
        }
    }
}

class InternalException(message: String) : kotlin.Exception(message)

/**
 * Each top-level error class has a companion object that can lift the error from the call status's rust buffer
 *
 * @suppress
 */
interface UniffiRustCallStatusErrorHandler<E> {
    fun lift(error_buf: RustBuffer.ByValue): E;
}

// Helpers for calling Rust
// In practice we usually need to be synchronized to call this safely, so it doesn't
// synchronize itself

// Call a rust function that returns a Result<>.  Pass in the Error class companion that corresponds to the Err
private inline fun <U, E: kotlin.Exception> uniffiRustCallWithError(errorHandler: UniffiRustCallStatusErrorHandler<E>, callback: (UniffiRustCallStatus) -> U): U {
    var status = UniffiRustCallStatus()
    val return_value = callback(status)
    uniffiCheckCallStatus(errorHandler, status)
    return return_value
}

// Check UniffiRustCallStatus and throw an error if the call wasn't successful
private fun<E: kotlin.Exception> uniffiCheckCallStatus(errorHandler: UniffiRustCallStatusErrorHandler<E>, status: UniffiRustCallStatus) {
    if (status.isSuccess()) {
        return
    } else if (status.isError()) {
        throw errorHandler.lift(status.error_buf)
    } else if (status.isPanic()) {
        // when the rust code sees a panic, it tries to construct a rustbuffer
        // with the message.  but if that code panics, then it just sends back
        // an empty buffer.
        if (status.error_buf.len > 0) {
            throw InternalException(FfiConverterString.lift(status.error_buf))
        } else {
            throw InternalException("Rust panic")
        }
    } else {
        throw InternalException("Unknown rust call status: $status.code")
    }
}

/**
 * UniffiRustCallStatusErrorHandler implementation for times when we don't expect a CALL_ERROR
 *
 * @suppress
 */
object UniffiNullRustCallStatusErrorHandler: UniffiRustCallStatusErrorHandler<InternalException> {
    override fun lift(error_buf: RustBuffer.ByValue): InternalException {
        RustBuffer.free(error_buf)
        return InternalException("Unexpected CALL_ERROR")
    }
}

// Call a rust function that returns a plain value
private inline fun <U> uniffiRustCall(callback: (UniffiRustCallStatus) -> U): U {
    return uniffiRustCallWithError(UniffiNullRustCallStatusErrorHandler, callback)
}

internal inline fun<T> uniffiTraitInterfaceCall(
    callStatus: UniffiRustCallStatus,
    makeCall: () -> T,
    writeReturn: (T) -> Unit,
) {
    try {
        writeReturn(makeCall())
    } catch(e: kotlin.Exception) {
        val err = try { e.stackTraceToString() } catch(_: Throwable) { "" }
        callStatus.code = UNIFFI_CALL_UNEXPECTED_ERROR
        callStatus.error_buf = FfiConverterString.lower(err)
    }
}

internal inline fun<T, reified E: Throwable> uniffiTraitInterfaceCallWithError(
    callStatus: UniffiRustCallStatus,
    makeCall: () -> T,
    writeReturn: (T) -> Unit,
    lowerError: (E) -> RustBuffer.ByValue
) {
    try {
        writeReturn(makeCall())
    } catch(e: kotlin.Exception) {
        if (e is E) {
            callStatus.code = UNIFFI_CALL_ERROR
            callStatus.error_buf = lowerError(e)
        } else {
            val err = try { e.stackTraceToString() } catch(_: Throwable) { "" }
            callStatus.code = UNIFFI_CALL_UNEXPECTED_ERROR
            callStatus.error_buf = FfiConverterString.lower(err)
        }
    }
}
// Initial value and increment amount for handles.
// These ensure that Kotlin-generated handles always have the lowest bit set
private const val UNIFFI_HANDLEMAP_INITIAL = 1.toLong()
private const val UNIFFI_HANDLEMAP_DELTA = 2.toLong()

// Map handles to objects
//
// This is used pass an opaque 64-bit handle representing a foreign object to the Rust code.
internal class UniffiHandleMap<T: Any> {
    private val map = ConcurrentHashMap<Long, T>()
    // Start
    private val counter = java.util.concurrent.atomic.AtomicLong(UNIFFI_HANDLEMAP_INITIAL)

    val size: Int
        get() = map.size

    // Insert a new object into the handle map and get a handle for it
    fun insert(obj: T): Long {
        val handle = counter.getAndAdd(UNIFFI_HANDLEMAP_DELTA)
        map.put(handle, obj)
        return handle
    }

    // Clone a handle, creating a new one
    fun clone(handle: Long): Long {
        val obj = map.get(handle) ?: throw InternalException("UniffiHandleMap.clone: Invalid handle")
        return insert(obj)
    }

    // Get an object from the handle map
    fun get(handle: Long): T {
        return map.get(handle) ?: throw InternalException("UniffiHandleMap.get: Invalid handle")
    }

    // Remove an entry from the handlemap and get the Kotlin object back
    fun remove(handle: Long): T {
        return map.remove(handle) ?: throw InternalException("UniffiHandleMap: Invalid handle")
    }
}

// Contains loading, initialization code,
// and the FFI Function declarations in a com.sun.jna.Library.
@Synchronized
private fun findLibraryName(componentName: String): String {
    val libOverride = System.getProperty("uniffi.component.$componentName.libraryOverride")
    if (libOverride != null) {
        return libOverride
    }
    return "farsiding_bindings"
}

// Define FFI callback types
internal interface UniffiRustFutureContinuationCallback : com.sun.jna.Callback {
    fun callback(`data`: Long,`pollResult`: Byte,)
}
internal interface UniffiForeignFutureDroppedCallback : com.sun.jna.Callback {
    fun callback(`handle`: Long,)
}
internal interface UniffiCallbackInterfaceFree : com.sun.jna.Callback {
    fun callback(`handle`: Long,)
}
internal interface UniffiCallbackInterfaceClone : com.sun.jna.Callback {
    fun callback(`handle`: Long,)
    : Long
}
@Structure.FieldOrder("handle", "free")
internal open class UniffiForeignFutureDroppedCallbackStruct(
    @JvmField internal var `handle`: Long = 0.toLong(),
    @JvmField internal var `free`: UniffiForeignFutureDroppedCallback? = null,
) : Structure() {
    class UniffiByValue(
        `handle`: Long = 0.toLong(),
        `free`: UniffiForeignFutureDroppedCallback? = null,
    ): UniffiForeignFutureDroppedCallbackStruct(`handle`,`free`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureDroppedCallbackStruct) {
        `handle` = other.`handle`
        `free` = other.`free`
    }

}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultU8(
    @JvmField internal var `returnValue`: Byte = 0.toByte(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Byte = 0.toByte(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultU8(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultU8) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteU8 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultU8.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultI8(
    @JvmField internal var `returnValue`: Byte = 0.toByte(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Byte = 0.toByte(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultI8(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultI8) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteI8 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultI8.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultU16(
    @JvmField internal var `returnValue`: Short = 0.toShort(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Short = 0.toShort(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultU16(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultU16) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteU16 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultU16.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultI16(
    @JvmField internal var `returnValue`: Short = 0.toShort(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Short = 0.toShort(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultI16(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultI16) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteI16 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultI16.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultU32(
    @JvmField internal var `returnValue`: Int = 0,
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Int = 0,
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultU32(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultU32) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteU32 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultU32.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultI32(
    @JvmField internal var `returnValue`: Int = 0,
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Int = 0,
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultI32(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultI32) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteI32 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultI32.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultU64(
    @JvmField internal var `returnValue`: Long = 0.toLong(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Long = 0.toLong(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultU64(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultU64) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteU64 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultU64.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultI64(
    @JvmField internal var `returnValue`: Long = 0.toLong(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Long = 0.toLong(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultI64(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultI64) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteI64 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultI64.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultF32(
    @JvmField internal var `returnValue`: Float = 0.0f,
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Float = 0.0f,
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultF32(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultF32) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteF32 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultF32.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultF64(
    @JvmField internal var `returnValue`: Double = 0.0,
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: Double = 0.0,
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultF64(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultF64) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteF64 : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultF64.UniffiByValue,)
}
@Structure.FieldOrder("returnValue", "callStatus")
internal open class UniffiForeignFutureResultRustBuffer(
    @JvmField internal var `returnValue`: RustBuffer.ByValue = RustBuffer.ByValue(),
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `returnValue`: RustBuffer.ByValue = RustBuffer.ByValue(),
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultRustBuffer(`returnValue`,`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultRustBuffer) {
        `returnValue` = other.`returnValue`
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteRustBuffer : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultRustBuffer.UniffiByValue,)
}
@Structure.FieldOrder("callStatus")
internal open class UniffiForeignFutureResultVoid(
    @JvmField internal var `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
) : Structure() {
    class UniffiByValue(
        `callStatus`: UniffiRustCallStatus.ByValue = UniffiRustCallStatus.ByValue(),
    ): UniffiForeignFutureResultVoid(`callStatus`,), Structure.ByValue

   internal fun uniffiSetValue(other: UniffiForeignFutureResultVoid) {
        `callStatus` = other.`callStatus`
    }

}
internal interface UniffiForeignFutureCompleteVoid : com.sun.jna.Callback {
    fun callback(`callbackData`: Long,`result`: UniffiForeignFutureResultVoid.UniffiByValue,)
}

// A JNA Library to expose the extern-C FFI definitions.
// This is an implementation detail which will be called internally by the public API.

// For large crates we prevent `MethodTooLargeException` (see #2340)
// N.B. the name of the extension is very misleading, since it is
// rather `InterfaceTooLargeException`, caused by too many methods
// in the interface for large crates.
//
// By splitting the otherwise huge interface into two parts
// * UniffiLib (this)
// * IntegrityCheckingUniffiLib
// And all checksum methods are put into `IntegrityCheckingUniffiLib`
// we allow for ~2x as many methods in the UniffiLib interface.
//
// Note: above all written when we used JNA's `loadIndirect` etc.
// We now use JNA's "direct mapping" - unclear if same considerations apply exactly.
internal object IntegrityCheckingUniffiLib {
    init {
        Native.register(IntegrityCheckingUniffiLib::class.java, findLibraryName(componentName = "farsiding_bindings"))
        uniffiCheckContractApiVersion(this)
        uniffiCheckApiChecksums(this)
    }
    external fun uniffi_farsiding_bindings_checksum_func_calculate(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_formulas(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_read_amount(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_new_key(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_pin_storage_key(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_core_version(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_func_prepare_storage(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_append(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_device(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_drafts(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_find(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_fit_to_unload(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_new_site(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_open_visit(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_over(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_override_items(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_pass_over(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_people(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_preview(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_record_step(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_release(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_set_draft(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_settle(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_show(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_sites(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_standing(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_status(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_visit(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_visits(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_withdraw(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_carried_photo(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_carry_in(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_carry_out(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_carry_photo(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_photo_taken(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_photos_of(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_photos_waiting(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_enrol_request(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_enrolled(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_enrolled_with(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_log_receive(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_log_request(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_pass_request(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_sync_receive(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_sync_request(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_sync_start(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_binds(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_change_pin(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_forget_person_key(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_keep_beside(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_lock_people(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_make_person_key(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_people_here(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_method_book_unlock_person(
    ): Int
    external fun uniffi_farsiding_bindings_checksum_constructor_book_open(
    ): Int
    external fun ffi_farsiding_bindings_uniffi_contract_version(
    ): Int


}

internal object UniffiLib {

    // The Cleaner for the whole library
    internal val CLEANER: UniffiCleaner by lazy {
        UniffiCleaner.create()
    }


    init {
        Native.register(UniffiLib::class.java, findLibraryName(componentName = "farsiding_bindings"))

    }
    external fun uniffi_farsiding_bindings_fn_clone_book(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Long
external fun uniffi_farsiding_bindings_fn_free_book(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_constructor_book_open(`folder`: RustBuffer.ByValue,`name`: RustBuffer.ByValue,`key`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Long
external fun uniffi_farsiding_bindings_fn_method_book_append(`ptr`: Long,`subject`: RustBuffer.ByValue,`drafts`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_device(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_drafts(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_find(`ptr`: Long,`text`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_fit_to_unload(`ptr`: Long,`visit`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_new_site(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_open_visit(`ptr`: Long,`opening`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_over(`ptr`: Long,`from`: Int,`most`: Int,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_override_items(`ptr`: Long,`visit`: RustBuffer.ByValue,`gate`: RustBuffer.ByValue,`items`: RustBuffer.ByValue,`reason`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_pass_over(`ptr`: Long,`visit`: RustBuffer.ByValue,`blocker`: RustBuffer.ByValue,`why`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_people(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_preview(`ptr`: Long,`visit`: RustBuffer.ByValue,`drafts`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_record_step(`ptr`: Long,`visit`: RustBuffer.ByValue,`step`: RustBuffer.ByValue,`outcome`: RustBuffer.ByValue,`note`: RustBuffer.ByValue,`drafts`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_release(`ptr`: Long,`visit`: RustBuffer.ByValue,`asResidue`: Byte,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_set_draft(`ptr`: Long,`key`: RustBuffer.ByValue,`text`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_settle(`ptr`: Long,`visit`: RustBuffer.ByValue,`keeps`: RustBuffer.ByValue,`why`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_show(`ptr`: Long,`visit`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_sites(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_standing(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_status(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_visit(`ptr`: Long,`visit`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_visits(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_withdraw(`ptr`: Long,`visit`: RustBuffer.ByValue,`entry`: RustBuffer.ByValue,`why`: RustBuffer.ByValue,`operator`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_carried_photo(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_carry_in(`ptr`: Long,`file`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_carry_out(`ptr`: Long,`visits`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_carry_photo(`ptr`: Long,`bytes`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_photo_taken(`ptr`: Long,`sha256`: RustBuffer.ByValue,`length`: Long,`media`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_photos_of(`ptr`: Long,`visits`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_photos_waiting(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_enrol_request(`ptr`: Long,`code`: RustBuffer.ByValue,`name`: RustBuffer.ByValue,`organisationKey`: RustBuffer.ByValue,`serverTime`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_enrolled(`ptr`: Long,`organisationKey`: RustBuffer.ByValue,`certificate`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_enrolled_with(`ptr`: Long,`organisationKey`: RustBuffer.ByValue,`keyStatements`: RustBuffer.ByValue,`certificate`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_log_receive(`ptr`: Long,`reply`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_log_request(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_pass_request(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_sync_receive(`ptr`: Long,`reply`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_sync_request(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_sync_start(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_binds(`ptr`: Long,`drafts`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Byte
external fun uniffi_farsiding_bindings_fn_method_book_change_pin(`ptr`: Long,`person`: RustBuffer.ByValue,`oldPin`: RustBuffer.ByValue,`newPin`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_forget_person_key(`ptr`: Long,`person`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_keep_beside(`ptr`: Long,`secret`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_lock_people(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_method_book_make_person_key(`ptr`: Long,`person`: RustBuffer.ByValue,`pin`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_people_here(`ptr`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_method_book_unlock_person(`ptr`: Long,`person`: RustBuffer.ByValue,`pin`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_func_calculate(`formula`: RustBuffer.ByValue,`line`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_formulas(uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_read_amount(`text`: RustBuffer.ByValue,`unit`: RustBuffer.ByValue,`decimalMark`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_new_key(uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(`pin`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun uniffi_farsiding_bindings_fn_func_pin_storage_key(`pin`: RustBuffer.ByValue,`beside`: RustBuffer.ByValue,`salt`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_core_version(uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun uniffi_farsiding_bindings_fn_func_prepare_storage(`folder`: RustBuffer.ByValue,
): Long
external fun ffi_farsiding_bindings_rustbuffer_alloc(`size`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun ffi_farsiding_bindings_rustbuffer_from_bytes(`bytes`: ForeignBytes.ByValue,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun ffi_farsiding_bindings_rustbuffer_free(`buf`: RustBuffer.ByValue,uniffi_out_err: UniffiRustCallStatus,
): Unit
external fun ffi_farsiding_bindings_rustbuffer_reserve(`buf`: RustBuffer.ByValue,`additional`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun ffi_farsiding_bindings_rust_future_poll_u8(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_u8(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_u8(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_u8(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Int
external fun ffi_farsiding_bindings_rust_future_poll_i8(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_i8(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_i8(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_i8(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Byte
external fun ffi_farsiding_bindings_rust_future_poll_u16(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_u16(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_u16(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_u16(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Int
external fun ffi_farsiding_bindings_rust_future_poll_i16(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_i16(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_i16(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_i16(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Short
external fun ffi_farsiding_bindings_rust_future_poll_u32(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_u32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_u32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_u32(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Int
external fun ffi_farsiding_bindings_rust_future_poll_i32(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_i32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_i32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_i32(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Int
external fun ffi_farsiding_bindings_rust_future_poll_u64(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_u64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_u64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_u64(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Long
external fun ffi_farsiding_bindings_rust_future_poll_i64(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_i64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_i64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_i64(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Long
external fun ffi_farsiding_bindings_rust_future_poll_f32(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_f32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_f32(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_f32(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Float
external fun ffi_farsiding_bindings_rust_future_poll_f64(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_f64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_f64(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_f64(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Double
external fun ffi_farsiding_bindings_rust_future_poll_rust_buffer(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_rust_buffer(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_rust_buffer(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_rust_buffer(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): RustBuffer.ByValue
external fun ffi_farsiding_bindings_rust_future_poll_void(`handle`: Long,`callback`: UniffiRustFutureContinuationCallback,`callbackData`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_cancel_void(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_free_void(`handle`: Long,
): Unit
external fun ffi_farsiding_bindings_rust_future_complete_void(`handle`: Long,uniffi_out_err: UniffiRustCallStatus,
): Unit


}

private fun uniffiCheckContractApiVersion(lib: IntegrityCheckingUniffiLib) {
    // Get the bindings contract version from our ComponentInterface
    val bindings_contract_version = 30
    // Get the scaffolding contract version by calling the into the dylib
    val scaffolding_contract_version = lib.ffi_farsiding_bindings_uniffi_contract_version()
    if (bindings_contract_version != scaffolding_contract_version) {
        throw RuntimeException("UniFFI contract version mismatch: try cleaning and rebuilding your project")
    }
}
@Suppress("UNUSED_PARAMETER")
private fun uniffiCheckApiChecksums(lib: IntegrityCheckingUniffiLib) {
    if (lib.uniffi_farsiding_bindings_checksum_func_calculate() != 12748) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_formulas() != 56892) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_read_amount() != 17718) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_new_key() != 16597) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() != 56356) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_pin_storage_key() != 29291) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_core_version() != 30956) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_func_prepare_storage() != 34496) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_append() != 19026) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_device() != 27345) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_drafts() != 57336) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_find() != 23673) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_fit_to_unload() != 9605) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_new_site() != 29822) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_open_visit() != 6418) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_over() != 58626) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_override_items() != 54076) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_pass_over() != 43011) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_people() != 50066) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_preview() != 9245) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_record_step() != 26513) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_release() != 4878) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_set_draft() != 10070) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_settle() != 19825) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_show() != 38547) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_sites() != 9170) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_standing() != 15573) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_status() != 58531) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_visit() != 63855) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_visits() != 6735) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_withdraw() != 14647) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_carried_photo() != 1338) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_carry_in() != 60974) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_carry_out() != 62352) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_carry_photo() != 18568) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_photo_taken() != 61104) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_photos_of() != 21378) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_photos_waiting() != 19255) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_enrol_request() != 4152) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_enrolled() != 19958) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_enrolled_with() != 24574) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_log_receive() != 60625) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_log_request() != 54498) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_pass_request() != 63888) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_sync_receive() != 34293) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_sync_request() != 1845) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_sync_start() != 4745) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_binds() != 7415) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_change_pin() != 7098) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_forget_person_key() != 2692) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_keep_beside() != 5762) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_lock_people() != 8337) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_make_person_key() != 30723) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_people_here() != 15443) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_method_book_unlock_person() != 22959) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
    if (lib.uniffi_farsiding_bindings_checksum_constructor_book_open() != 10423) {
        throw RuntimeException("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
}

/**
 * @suppress
 */
public fun uniffiEnsureInitialized() {
    IntegrityCheckingUniffiLib
    // UniffiLib() initialized as objects are used, but we still need to explicitly
    // reference it so initialization across crates works as expected.
    UniffiLib
}

// Async support
// Async return type handlers

internal const val UNIFFI_RUST_FUTURE_POLL_READY = 0.toByte()
internal const val UNIFFI_RUST_FUTURE_POLL_WAKE = 1.toByte()

internal val uniffiContinuationHandleMap = UniffiHandleMap<CancellableContinuation<Byte>>()

// FFI type for Rust future continuations
internal object uniffiRustFutureContinuationCallbackImpl: UniffiRustFutureContinuationCallback {
    override fun callback(data: Long, pollResult: Byte) {
        uniffiContinuationHandleMap.remove(data).resume(pollResult)
    }
}

internal suspend fun<T, F, E: kotlin.Exception> uniffiRustCallAsync(
    rustFuture: Long,
    pollFunc: (Long, UniffiRustFutureContinuationCallback, Long) -> Unit,
    completeFunc: (Long, UniffiRustCallStatus) -> F,
    freeFunc: (Long) -> Unit,
    liftFunc: (F) -> T,
    errorHandler: UniffiRustCallStatusErrorHandler<E>
): T {
    try {
        do {
            val pollResult = suspendCancellableCoroutine<Byte> { continuation ->
                pollFunc(
                    rustFuture,
                    uniffiRustFutureContinuationCallbackImpl,
                    uniffiContinuationHandleMap.insert(continuation)
                )
            }
        } while (pollResult != UNIFFI_RUST_FUTURE_POLL_READY);

        return liftFunc(
            uniffiRustCallWithError(errorHandler, { status -> completeFunc(rustFuture, status) })
        )
    } finally {
        freeFunc(rustFuture)
    }
}

// Public interface members begin here.


// Interface implemented by anything that can contain an object reference.
//
// Such types expose a `destroy()` method that must be called to cleanly
// dispose of the contained objects. Failure to call this method may result
// in memory leaks.
//
// The easiest way to ensure this method is called is to use the `.use`
// helper method to execute a block and destroy the object at the end.
interface Disposable {
    fun destroy()
    companion object {
        fun destroy(vararg args: Any?) {
            for (arg in args) {
                when (arg) {
                    is Disposable -> arg.destroy()
                    is ArrayList<*> -> {
                        for (idx in arg.indices) {
                            val element = arg[idx]
                            if (element is Disposable) {
                                element.destroy()
                            }
                        }
                    }
                    is Map<*, *> -> {
                        for (element in arg.values) {
                            if (element is Disposable) {
                                element.destroy()
                            }
                        }
                    }
                    is Iterable<*> -> {
                        for (element in arg) {
                            if (element is Disposable) {
                                element.destroy()
                            }
                        }
                    }
                }
            }
        }
    }
}

/**
 * @suppress
 */
inline fun <T : Disposable?, R> T.use(block: (T) -> R) =
    try {
        block(this)
    } finally {
        try {
            // N.B. our implementation is on the nullable type `Disposable?`.
            this?.destroy()
        } catch (e: Throwable) {
            // swallow
        }
    }

/**
 * Placeholder object used to signal that we're constructing an interface with a FFI handle.
 *
 * This is the first argument for interface constructors that input a raw handle. It exists is that
 * so we can avoid signature conflicts when an interface has a regular constructor than inputs a
 * Long.
 *
 * @suppress
 * */
object UniffiWithHandle

/**
 * Used to instantiate an interface without an actual pointer, for fakes in tests, mostly.
 *
 * @suppress
 * */
object NoHandle
/**
 * The cleaner interface for Object finalization code to run.
 * This is the entry point to any implementation that we're using.
 *
 * The cleaner registers objects and returns cleanables, so now we are
 * defining a `UniffiCleaner` with a `UniffiClenaer.Cleanable` to abstract the
 * different implmentations available at compile time.
 *
 * @suppress
 */
interface UniffiCleaner {
    interface Cleanable {
        fun clean()
    }

    fun register(value: Any, cleanUpTask: Runnable): UniffiCleaner.Cleanable

    companion object
}

// The fallback Jna cleaner, which is available for both Android, and the JVM.
private class UniffiJnaCleaner : UniffiCleaner {
    private val cleaner = com.sun.jna.internal.Cleaner.getCleaner()

    override fun register(value: Any, cleanUpTask: Runnable): UniffiCleaner.Cleanable =
        UniffiJnaCleanable(cleaner.register(value, cleanUpTask))
}

private class UniffiJnaCleanable(
    private val cleanable: com.sun.jna.internal.Cleaner.Cleanable,
) : UniffiCleaner.Cleanable {
    override fun clean() = cleanable.clean()
}


// We decide at uniffi binding generation time whether we were
// using Android or not.
// There are further runtime checks to chose the correct implementation
// of the cleaner.
private fun UniffiCleaner.Companion.create(): UniffiCleaner =
    try {
        // For safety's sake: if the library hasn't been run in android_cleaner = true
        // mode, but is being run on Android, then we still need to think about
        // Android API versions.
        // So we check if java.lang.ref.Cleaner is there, and use that…
        java.lang.Class.forName("java.lang.ref.Cleaner")
        JavaLangRefCleaner()
    } catch (e: ClassNotFoundException) {
        // … otherwise, fallback to the JNA cleaner.
        UniffiJnaCleaner()
    }

private class JavaLangRefCleaner : UniffiCleaner {
    val cleaner = java.lang.ref.Cleaner.create()

    override fun register(value: Any, cleanUpTask: Runnable): UniffiCleaner.Cleanable =
        JavaLangRefCleanable(cleaner.register(value, cleanUpTask))
}

private class JavaLangRefCleanable(
    val cleanable: java.lang.ref.Cleaner.Cleanable
) : UniffiCleaner.Cleanable {
    override fun clean() = cleanable.clean()
}

/**
 * @suppress
 */
public object FfiConverterUInt: FfiConverter<UInt, Int> {
    override fun lift(value: Int): UInt {
        return value.toUInt()
    }

    override fun read(buf: ByteBuffer): UInt {
        return lift(buf.getInt())
    }

    override fun lower(value: UInt): Int {
        return value.toInt()
    }

    override fun allocationSize(value: UInt) = 4UL

    override fun write(value: UInt, buf: ByteBuffer) {
        buf.putInt(value.toInt())
    }
}

/**
 * @suppress
 */
public object FfiConverterULong: FfiConverter<ULong, Long> {
    override fun lift(value: Long): ULong {
        return value.toULong()
    }

    override fun read(buf: ByteBuffer): ULong {
        return lift(buf.getLong())
    }

    override fun lower(value: ULong): Long {
        return value.toLong()
    }

    override fun allocationSize(value: ULong) = 8UL

    override fun write(value: ULong, buf: ByteBuffer) {
        buf.putLong(value.toLong())
    }
}

/**
 * @suppress
 */
public object FfiConverterLong: FfiConverter<Long, Long> {
    override fun lift(value: Long): Long {
        return value
    }

    override fun read(buf: ByteBuffer): Long {
        return buf.getLong()
    }

    override fun lower(value: Long): Long {
        return value
    }

    override fun allocationSize(value: Long) = 8UL

    override fun write(value: Long, buf: ByteBuffer) {
        buf.putLong(value)
    }
}

/**
 * @suppress
 */
public object FfiConverterDouble: FfiConverter<Double, Double> {
    override fun lift(value: Double): Double {
        return value
    }

    override fun read(buf: ByteBuffer): Double {
        return buf.getDouble()
    }

    override fun lower(value: Double): Double {
        return value
    }

    override fun allocationSize(value: Double) = 8UL

    override fun write(value: Double, buf: ByteBuffer) {
        buf.putDouble(value)
    }
}

/**
 * @suppress
 */
public object FfiConverterBoolean: FfiConverter<Boolean, Byte> {
    override fun lift(value: Byte): Boolean {
        return value.toInt() != 0
    }

    override fun read(buf: ByteBuffer): Boolean {
        return lift(buf.get())
    }

    override fun lower(value: Boolean): Byte {
        return if (value) 1.toByte() else 0.toByte()
    }

    override fun allocationSize(value: Boolean) = 1UL

    override fun write(value: Boolean, buf: ByteBuffer) {
        buf.put(lower(value))
    }
}

/**
 * @suppress
 */
public object FfiConverterString: FfiConverter<String, RustBuffer.ByValue> {
    // Note: we don't inherit from FfiConverterRustBuffer, because we use a
    // special encoding when lowering/lifting.  We can use `RustBuffer.len` to
    // store our length and avoid writing it out to the buffer.
    override fun lift(value: RustBuffer.ByValue): String {
        try {
            val byteArr = ByteArray(value.len.toInt())
            value.asByteBuffer()!!.get(byteArr)
            return byteArr.toString(Charsets.UTF_8)
        } finally {
            RustBuffer.free(value)
        }
    }

    override fun read(buf: ByteBuffer): String {
        val len = buf.getInt()
        val byteArr = ByteArray(len)
        buf.get(byteArr)
        return byteArr.toString(Charsets.UTF_8)
    }

    fun toUtf8(value: String): ByteBuffer {
        // Make sure we don't have invalid UTF-16, check for lone surrogates.
        return Charsets.UTF_8.newEncoder().run {
            onMalformedInput(CodingErrorAction.REPORT)
            encode(CharBuffer.wrap(value))
        }
    }

    override fun lower(value: String): RustBuffer.ByValue {
        val byteBuf = toUtf8(value)
        // Ideally we'd pass these bytes to `ffi_bytebuffer_from_bytes`, but doing so would require us
        // to copy them into a JNA `Memory`. So we might as well directly copy them into a `RustBuffer`.
        val rbuf = RustBuffer.alloc(byteBuf.limit().toULong())
        rbuf.asByteBuffer()!!.put(byteBuf)
        return rbuf
    }

    // We aren't sure exactly how many bytes our string will be once it's UTF-8
    // encoded.  Allocate 3 bytes per UTF-16 code unit which will always be
    // enough.
    override fun allocationSize(value: String): ULong {
        val sizeForLength = 4UL
        val sizeForString = value.length.toULong() * 3UL
        return sizeForLength + sizeForString
    }

    override fun write(value: String, buf: ByteBuffer) {
        val byteBuf = toUtf8(value)
        buf.putInt(byteBuf.limit())
        buf.put(byteBuf)
    }
}

/**
 * @suppress
 */
public object FfiConverterByteArray: FfiConverterRustBuffer<ByteArray> {
    override fun read(buf: ByteBuffer): ByteArray {
        val len = buf.getInt()
        val byteArr = ByteArray(len)
        buf.get(byteArr)
        return byteArr
    }
    override fun allocationSize(value: ByteArray): ULong {
        return 4UL + value.size.toULong()
    }
    override fun write(value: ByteArray, buf: ByteBuffer) {
        buf.putInt(value.size)
        buf.put(value)
    }
}


// This template implements a class for working with a Rust struct via a handle
// to the live Rust struct on the other side of the FFI.
//
// There's some subtlety here, because we have to be careful not to operate on a Rust
// struct after it has been dropped, and because we must expose a public API for freeing
// theq Kotlin wrapper object in lieu of reliable finalizers. The core requirements are:
//
//   * Each instance holds an opaque handle to the underlying Rust struct.
//     Method calls need to read this handle from the object's state and pass it in to
//     the Rust FFI.
//
//   * When an instance is no longer needed, its handle should be passed to a
//     special destructor function provided by the Rust FFI, which will drop the
//     underlying Rust struct.
//
//   * Given an instance, calling code is expected to call the special
//     `destroy` method in order to free it after use, either by calling it explicitly
//     or by using a higher-level helper like the `use` method. Failing to do so risks
//     leaking the underlying Rust struct.
//
//   * We can't assume that calling code will do the right thing, and must be prepared
//     to handle Kotlin method calls executing concurrently with or even after a call to
//     `destroy`, and to handle multiple (possibly concurrent!) calls to `destroy`.
//
//   * We must never allow Rust code to operate on the underlying Rust struct after
//     the destructor has been called, and must never call the destructor more than once.
//     Doing so may trigger memory unsafety.
//
//   * To mitigate many of the risks of leaking memory and use-after-free unsafety, a `Cleaner`
//     is implemented to call the destructor when the Kotlin object becomes unreachable.
//     This is done in a background thread. This is not a panacea, and client code should be aware that
//      1. the thread may starve if some there are objects that have poorly performing
//     `drop` methods or do significant work in their `drop` methods.
//      2. the thread is shared across the whole library. This can be tuned by using `android_cleaner = true`,
//         or `android = true` in the [`kotlin` section of the `uniffi.toml` file](https://mozilla.github.io/uniffi-rs/kotlin/configuration.html).
//
// If we try to implement this with mutual exclusion on access to the handle, there is the
// possibility of a race between a method call and a concurrent call to `destroy`:
//
//    * Thread A starts a method call, reads the value of the handle, but is interrupted
//      before it can pass the handle over the FFI to Rust.
//    * Thread B calls `destroy` and frees the underlying Rust struct.
//    * Thread A resumes, passing the already-read handle value to Rust and triggering
//      a use-after-free.
//
// One possible solution would be to use a `ReadWriteLock`, with each method call taking
// a read lock (and thus allowed to run concurrently) and the special `destroy` method
// taking a write lock (and thus blocking on live method calls). However, we aim not to
// generate methods with any hidden blocking semantics, and a `destroy` method that might
// block if called incorrectly seems to meet that bar.
//
// So, we achieve our goals by giving each instance an associated `AtomicLong` counter to track
// the number of in-flight method calls, and an `AtomicBoolean` flag to indicate whether `destroy`
// has been called. These are updated according to the following rules:
//
//    * The initial value of the counter is 1, indicating a live object with no in-flight calls.
//      The initial value for the flag is false.
//
//    * At the start of each method call, we atomically check the counter.
//      If it is 0 then the underlying Rust struct has already been destroyed and the call is aborted.
//      If it is nonzero them we atomically increment it by 1 and proceed with the method call.
//
//    * At the end of each method call, we atomically decrement and check the counter.
//      If it has reached zero then we destroy the underlying Rust struct.
//
//    * When `destroy` is called, we atomically flip the flag from false to true.
//      If the flag was already true we silently fail.
//      Otherwise we atomically decrement and check the counter.
//      If it has reached zero then we destroy the underlying Rust struct.
//
// Astute readers may observe that this all sounds very similar to the way that Rust's `Arc<T>` works,
// and indeed it is, with the addition of a flag to guard against multiple calls to `destroy`.
//
// The overall effect is that the underlying Rust struct is destroyed only when `destroy` has been
// called *and* all in-flight method calls have completed, avoiding violating any of the expectations
// of the underlying Rust code.
//
// This makes a cleaner a better alternative to _not_ calling `destroy()` as
// and when the object is finished with, but the abstraction is not perfect: if the Rust object's `drop`
// method is slow, and/or there are many objects to cleanup, and it's on a low end Android device, then the cleaner
// thread may be starved, and the app will leak memory.
//
// In this case, `destroy`ing manually may be a better solution.
//
// The cleaner can live side by side with the manual calling of `destroy`. In the order of responsiveness, uniffi objects
// with Rust peers are reclaimed:
//
// 1. By calling the `destroy` method of the object, which calls `rustObject.free()`. If that doesn't happen:
// 2. When the object becomes unreachable, AND the Cleaner thread gets to call `rustObject.free()`. If the thread is starved then:
// 3. The memory is reclaimed when the process terminates.
//
// [1] https://stackoverflow.com/questions/24376768/can-java-finalize-an-object-when-it-is-still-in-scope/24380219
//


/**
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
 */
public interface BookInterface {

    /**
     * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
     * 64 hexadecimal digits each. They are signed and on the disk when this returns.
     *
     * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
     * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
     * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
     * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
     * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
     * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
     * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
     * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
     * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
     * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `append`(`subject`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * This device's id: its public key, 64 hexadecimal digits. Never fails.
     */
    fun `device`(): kotlin.String

    /**
     * Every text that `set_draft` keeps, as a JSON object from key to text.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    fun `drafts`(): kotlin.String

    /**
     * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
     * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
     * to case. The list is empty when `text` has neither.
     *
     * # Errors
     * None today.
     */
    fun `find`(`text`: kotlin.String): kotlin.String

    /**
     * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
     * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
     * that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
     * procedure has no such gate, or this device may not sign it.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `fitToUnload`(`visit`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
     * is recorded. Never fails.
     */
    fun `newSite`(): kotlin.String

    /**
     * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
     * visit is on the disk when this returns.
     *
     * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
     * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
     * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
     * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
     * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
     * of the person who begins the visit: 1 to 64 printable characters, no
     * blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
     * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
     * would be larger than 32 KiB, or this device may not begin visits at that site.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `openVisit`(`opening`: kotlin.String, `operator`: kotlin.String): kotlin.String

    /**
     * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
     * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
     * many are returned at most; both are counts from 0 to 4294967295.
     *
     * # Errors
     * None today.
     */
    fun `over`(`from`: kotlin.UInt, `most`: kotlin.UInt): kotlin.String

    /**
     * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
     * the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
     * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
     * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
     * `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
     * device.
     * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
     * device may not override.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `overrideItems`(`visit`: kotlin.String, `gate`: kotlin.String, `items`: List<kotlin.String>, `reason`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * Passes over one thing that speaks against release, with a reason that the record shows for ever.
     * Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
     * as free text, required. `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
     * not pass over.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `passOver`(`visit`: kotlin.String, `blocker`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
     * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
     * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
     * one. `trained_on` is a date `YYYY-MM-DD`.
     *
     * # Errors
     * None today.
     */
    fun `people`(): kotlin.String

    /**
     * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
     * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
     *
     * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: as `append` would refuse.
     * - `NotStored`: the disk cannot be read.
     */
    fun `preview`(`visit`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): kotlin.String

    /**
     * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
     * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
     *
     * `step` is the step's id in the procedure, with its fitting where the step repeats:
     * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
     * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
     * `operator` are as for `append`, and `drafts` may be `[]`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
     * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `recordStep`(`visit`: kotlin.String, `step`: kotlin.String, `outcome`: kotlin.String, `note`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
     * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
     * or this device may not release.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `release`(`visit`: kotlin.String, `asResidue`: kotlin.Boolean, `operator`: kotlin.String): List<kotlin.String>

    /**
     * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
     * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
     * this device.
     *
     * # Errors
     * - `NotStored`: the disk failed or is full.
     */
    fun `setDraft`(`key`: kotlin.String, `text`: kotlin.String)

    /**
     * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
     * id of the settlement in a list of one: 64 hexadecimal digits.
     *
     * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
     * text, required. `operator` is as for `append`.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `settle`(`visit`: kotlin.String, `keeps`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    fun `show`(`visit`: kotlin.String): kotlin.String

    /**
     * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
     * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
     * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
     * level with its unit, or null.
     *
     * # Errors
     * None today.
     */
    fun `sites`(): kotlin.String

    /**
     * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
     * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
     * first.
     *
     * # Errors
     * None today.
     */
    fun `standing`(): kotlin.String

    /**
     * How this device stands, as a JSON object:
     * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
     * null. 64 hexadecimal digits each.
     * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
     * receipt for.
     * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
     * things from outside were refused and kept aside.
     * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
     * when never compared.
     * - `damaged`: the ids of entries whose rows on the disk are damaged.
     * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
     * entries}]`, with the site's id and two counts.
     * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
     * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
     * - `version`: the version of the core.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    fun `status`(): kotlin.String

    /**
     * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
     * seals, photographs, disagreements, blockers, findings, and the history as sentences.
     *
     * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
     * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    fun `visit`(`visit`: kotlin.String): kotlin.String

    /**
     * One row for each stay on this device, as a JSON list.
     *
     * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
     * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
     * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
     * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
     * `unreceipted` are counts.
     *
     * # Errors
     * None today.
     */
    fun `visits`(): kotlin.String

    /**
     * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
     * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
     * the entry that is taken back.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
     * back.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    fun `withdraw`(`visit`: kotlin.String, `entry`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String>

    /**
     * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
     * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
     */
    fun `carriedPhoto`(): Picture?

    /**
     * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
     * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
     * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
     * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
     * the file. Taking one file in twice changes nothing.
     *
     * # Errors
     * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
     * unpacked. Nothing was taken in.
     * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
     */
    fun `carryIn`(`file`: kotlin.ByteArray): kotlin.String

    /**
     * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
     * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
     * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
     * digits; one that is not here is left out.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     * - `Refused`: the file could not be encoded.
     */
    fun `carryOut`(`visits`: List<kotlin.String>): kotlin.ByteArray

    /**
     * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
     * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
     * (50331648 bytes).
     *
     * # Errors
     * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
     * - `NotStored`: the disk cannot be read.
     */
    fun `carryPhoto`(`bytes`: kotlin.ByteArray)

    /**
     * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
     * as JSON: `{sha256, length, media}`.
     *
     * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
     * is the media type, such as `image/jpeg`.
     *
     * # Errors
     * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
     * - `NotStored`: the disk failed or is full.
     */
    fun `photoTaken`(`sha256`: kotlin.String, `length`: kotlin.ULong, `media`: kotlin.String): kotlin.String

    /**
     * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
     * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
     * `visits` are ids of 32 hexadecimal digits.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     */
    fun `photosOf`(`visits`: List<kotlin.String>): kotlin.String

    /**
     * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
     * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
     * sending them shortens the list.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    fun `photosWaiting`(): kotlin.String

    /**
     * The body of the request that enrols this device: signed by the device's key, with a one-time code from
     * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
     *
     * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
     * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
     * in the office's link before the code leaves this device. `name` is what the office calls this device.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the request could not be encoded.
     */
    fun `enrolRequest`(`code`: kotlin.String, `name`: kotlin.String, `organisationKey`: kotlin.String, `serverTime`: kotlin.Long): kotlin.ByteArray

    /**
     * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
     * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
     * `key_statements`, call `enrolled_with` instead.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
     * kept.
     * - `NotStored`: the disk failed or is full.
     */
    fun `enrolled`(`organisationKey`: kotlin.String, `certificate`: kotlin.ByteArray)

    /**
     * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
     * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
     * `key_statements`, in their order.
     *
     * # Errors
     * As `enrolled`.
     */
    fun `enrolledWith`(`organisationKey`: kotlin.String, `keyStatements`: List<kotlin.ByteArray>, `certificate`: kotlin.ByteArray)

    /**
     * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
     * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
     * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
     * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
     * sync goes on, and `status` keeps it.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
     * called again.
     * - `WrongCall`: the log was not asked for.
     * - `NotStored`: the disk failed or is full.
     */
    fun `logReceive`(`reply`: kotlin.ByteArray): kotlin.String

    /**
     * The body of the next request about the office's log, for after a sync: send it with `POST` to the
     * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
     * Call this again when `log_receive` says that it is not done, or when a reply got lost.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    fun `logRequest`(): kotlin.ByteArray?

    /**
     * The body of the signed request for a pass, which lets this device send photographs to the office and
     * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    fun `passRequest`(): kotlin.ByteArray

    /**
     * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
     * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
     *
     * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
     * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
     * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
     * takes some things later, or null. `revoked` says that the office has revoked this device.
     * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
     * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
     * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
     * that left with them, whose bytes are the caller's to delete.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
     * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
     * - `WrongCall`: no sync was begun.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
     * again next time.
     */
    fun `syncReceive`(`reply`: kotlin.ByteArray): kotlin.String

    /**
     * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
     * got lost.
     *
     * # Errors
     * - `WrongCall`: no sync was begun, or the last one is done.
     * - `NotStored`: the disk cannot be read.
     */
    fun `syncRequest`(): kotlin.ByteArray

    /**
     * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
     * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
     * broken off is forgotten; what it brought is kept.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    fun `syncStart`()

    /**
     * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
     * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
     * named the person. `drafts` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: `drafts` is other JSON.
     */
    fun `binds`(`drafts`: kotlin.String): kotlin.Boolean

    /**
     * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
     * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
     * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
     */
    fun `changePin`(`person`: kotlin.String, `oldPin`: kotlin.String, `newPin`: kotlin.String)

    /**
     * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
     * office ends it in the roster, and the person makes a new one with `make_person_key`.
     *
     * # Errors
     * - `NoKey`: the person has no key on this device.
     * - `NotStored`: the disk failed or is full. The key is then still here.
     */
    fun `forgetPersonKey`(`person`: kotlin.String)

    /**
     * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
     * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
     * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
     * memory only.
     *
     * # Errors
     * - `WrongCall`: the secret has not 32 bytes.
     */
    fun `keepBeside`(`secret`: kotlin.ByteArray)

    /**
     * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
     */
    fun `lockPeople`()

    /**
     * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
     * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
     * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
     * - `HasKey`: the person has a key on this device already.
     * - `NotEnrolled`: no office has enrolled this device.
     * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
     * - `Refused`: `person` is no code, or this device may not say so.
     * - `NotStored`: the disk failed or is full. No key was made.
     */
    fun `makePersonKey`(`person`: kotlin.String, `pin`: kotlin.String): kotlin.String

    /**
     * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
     * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
     * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
     *
     * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
     * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
     * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
     * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
     * the device is enrolled, and `keep_beside` was called.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    fun `peopleHere`(): kotlin.String

    /**
     * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
     * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
     * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
     * they are made.
     *
     * # Errors
     * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
     * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
     * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
     * - `KeyEnded`: the office ended the key.
     * - `NoKey`: the person has no key on this device.
     * - `WeakPin`: the PIN has not six digits; no try was counted.
     * - `WrongCall`: `keep_beside` was not called.
     * - `Refused`: what was kept of the key is damaged.
     * - `NotStored`: the disk failed or is full.
     */
    fun `unlockPerson`(`person`: kotlin.String, `pin`: kotlin.String)

    companion object
}

/**
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
 */
open class Book: Disposable, AutoCloseable, BookInterface
{

    @Suppress("UNUSED_PARAMETER")
    /**
     * @suppress
     */
    constructor(withHandle: UniffiWithHandle, handle: Long) {
        this.handle = handle
        this.cleanable = UniffiLib.CLEANER.register(this, UniffiCleanAction(handle))
    }

    /**
     * @suppress
     *
     * This constructor can be used to instantiate a fake object. Only used for tests. Any
     * attempt to actually use an object constructed this way will fail as there is no
     * connected Rust object.
     */
    @Suppress("UNUSED_PARAMETER")
    constructor(noHandle: NoHandle) {
        this.handle = 0
        this.cleanable = null
    }

    protected val handle: Long
    protected val cleanable: UniffiCleaner.Cleanable?

    private val wasDestroyed = AtomicBoolean(false)
    private val callCounter = AtomicLong(1)

    override fun destroy() {
        // Only allow a single call to this method.
        // TODO: maybe we should log a warning if called more than once?
        if (this.wasDestroyed.compareAndSet(false, true)) {
            // This decrement always matches the initial count of 1 given at creation time.
            if (this.callCounter.decrementAndGet() == 0L) {
                cleanable?.clean()
            }
        }
    }

    @Synchronized
    override fun close() {
        this.destroy()
    }

    internal inline fun <R> callWithHandle(block: (handle: Long) -> R): R {
        // Check and increment the call counter, to keep the object alive.
        // This needs a compare-and-set retry loop in case of concurrent updates.
        do {
            val c = this.callCounter.get()
            if (c == 0L) {
                throw IllegalStateException("${this.javaClass.simpleName} object has already been destroyed")
            }
            if (c == Long.MAX_VALUE) {
                throw IllegalStateException("${this.javaClass.simpleName} call counter would overflow")
            }
        } while (! this.callCounter.compareAndSet(c, c + 1L))
        // Now we can safely do the method call without the handle being freed concurrently.
        try {
            return block(this.uniffiCloneHandle())
        } finally {
            // This decrement always matches the increment we performed above.
            if (this.callCounter.decrementAndGet() == 0L) {
                cleanable?.clean()
            }
        }
    }

    // Use a static inner class instead of a closure so as not to accidentally
    // capture `this` as part of the cleanable's action.
    private class UniffiCleanAction(private val handle: Long) : Runnable {
        override fun run() {
            if (handle == 0.toLong()) {
                // Fake object created with `NoHandle`, don't try to free.
                return;
            }
            uniffiRustCall { status ->
                UniffiLib.uniffi_farsiding_bindings_fn_free_book(handle, status)
            }
        }
    }

    /**
     * @suppress
     */
    fun uniffiCloneHandle(): Long {
        if (handle == 0.toLong()) {
            throw InternalException("uniffiCloneHandle() called on NoHandle object");
        }
        return uniffiRustCall() { status ->
            UniffiLib.uniffi_farsiding_bindings_fn_clone_book(handle, status)
        }
    }


    /**
     * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
     * 64 hexadecimal digits each. They are signed and on the disk when this returns.
     *
     * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
     * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
     * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
     * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
     * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
     * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
     * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
     * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
     * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
     * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `append`(`subject`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_append(
        it,
        FfiConverterString.lower(`subject`),FfiConverterString.lower(`drafts`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * This device's id: its public key, 64 hexadecimal digits. Never fails.
     */override fun `device`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_device(
        it,
        _status)
}
    }
    )
    }



    /**
     * Every text that `set_draft` keeps, as a JSON object from key to text.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `drafts`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_drafts(
        it,
        _status)
}
    }
    )
    }



    /**
     * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
     * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
     * to case. The list is empty when `text` has neither.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `find`(`text`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_find(
        it,
        FfiConverterString.lower(`text`),_status)
}
    }
    )
    }



    /**
     * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
     * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
     * that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
     * procedure has no such gate, or this device may not sign it.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `fitToUnload`(`visit`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_fit_to_unload(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
     * is recorded. Never fails.
     */override fun `newSite`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_new_site(
        it,
        _status)
}
    }
    )
    }



    /**
     * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
     * visit is on the disk when this returns.
     *
     * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
     * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
     * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
     * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
     * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
     * of the person who begins the visit: 1 to 64 printable characters, no
     * blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
     * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
     * would be larger than 32 KiB, or this device may not begin visits at that site.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `openVisit`(`opening`: kotlin.String, `operator`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_open_visit(
        it,
        FfiConverterString.lower(`opening`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
     * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
     * many are returned at most; both are counts from 0 to 4294967295.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `over`(`from`: kotlin.UInt, `most`: kotlin.UInt): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_over(
        it,
        FfiConverterUInt.lower(`from`),FfiConverterUInt.lower(`most`),_status)
}
    }
    )
    }



    /**
     * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
     * the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
     * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
     * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
     * `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
     * device.
     * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
     * device may not override.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `overrideItems`(`visit`: kotlin.String, `gate`: kotlin.String, `items`: List<kotlin.String>, `reason`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_override_items(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`gate`),FfiConverterSequenceString.lower(`items`),FfiConverterString.lower(`reason`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * Passes over one thing that speaks against release, with a reason that the record shows for ever.
     * Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
     * as free text, required. `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
     * not pass over.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `passOver`(`visit`: kotlin.String, `blocker`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_over(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`blocker`),FfiConverterString.lower(`why`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
     * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
     * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
     * one. `trained_on` is a date `YYYY-MM-DD`.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `people`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_people(
        it,
        _status)
}
    }
    )
    }



    /**
     * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
     * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
     *
     * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: as `append` would refuse.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `preview`(`visit`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_preview(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`drafts`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
     * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
     *
     * `step` is the step's id in the procedure, with its fitting where the step repeats:
     * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
     * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
     * `operator` are as for `append`, and `drafts` may be `[]`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
     * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `recordStep`(`visit`: kotlin.String, `step`: kotlin.String, `outcome`: kotlin.String, `note`: kotlin.String, `drafts`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_record_step(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`step`),FfiConverterString.lower(`outcome`),FfiConverterString.lower(`note`),FfiConverterString.lower(`drafts`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
     * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
     * or this device may not release.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `release`(`visit`: kotlin.String, `asResidue`: kotlin.Boolean, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_release(
        it,
        FfiConverterString.lower(`visit`),FfiConverterBoolean.lower(`asResidue`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
     * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
     * this device.
     *
     * # Errors
     * - `NotStored`: the disk failed or is full.
     */
    @Throws(FarsidingException::class)override fun `setDraft`(`key`: kotlin.String, `text`: kotlin.String)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_set_draft(
        it,
        FfiConverterString.lower(`key`),FfiConverterString.lower(`text`),_status)
}
    }




    /**
     * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
     * id of the settlement in a list of one: 64 hexadecimal digits.
     *
     * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
     * text, required. `operator` is as for `append`.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `settle`(`visit`: kotlin.String, `keeps`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_settle(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`keeps`),FfiConverterString.lower(`why`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    @Throws(FarsidingException::class)override fun `show`(`visit`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_show(
        it,
        FfiConverterString.lower(`visit`),_status)
}
    }
    )
    }



    /**
     * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
     * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
     * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
     * level with its unit, or null.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `sites`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_sites(
        it,
        _status)
}
    }
    )
    }



    /**
     * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
     * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
     * first.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `standing`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_standing(
        it,
        _status)
}
    }
    )
    }



    /**
     * How this device stands, as a JSON object:
     * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
     * null. 64 hexadecimal digits each.
     * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
     * receipt for.
     * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
     * things from outside were refused and kept aside.
     * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
     * when never compared.
     * - `damaged`: the ids of entries whose rows on the disk are damaged.
     * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
     * entries}]`, with the site's id and two counts.
     * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
     * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
     * - `version`: the version of the core.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `status`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_status(
        it,
        _status)
}
    }
    )
    }



    /**
     * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
     * seals, photographs, disagreements, blockers, findings, and the history as sentences.
     *
     * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
     * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    @Throws(FarsidingException::class)override fun `visit`(`visit`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_visit(
        it,
        FfiConverterString.lower(`visit`),_status)
}
    }
    )
    }



    /**
     * One row for each stay on this device, as a JSON list.
     *
     * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
     * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
     * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
     * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
     * `unreceipted` are counts.
     *
     * # Errors
     * None today.
     */
    @Throws(FarsidingException::class)override fun `visits`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_visits(
        it,
        _status)
}
    }
    )
    }



    /**
     * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
     * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
     * the entry that is taken back.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
     * back.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    @Throws(FarsidingException::class)override fun `withdraw`(`visit`: kotlin.String, `entry`: kotlin.String, `why`: kotlin.String, `operator`: kotlin.String): List<kotlin.String> {
            return FfiConverterSequenceString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_withdraw(
        it,
        FfiConverterString.lower(`visit`),FfiConverterString.lower(`entry`),FfiConverterString.lower(`why`),FfiConverterString.lower(`operator`),_status)
}
    }
    )
    }



    /**
     * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
     * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
     */override fun `carriedPhoto`(): Picture? {
            return FfiConverterOptionalTypePicture.lift(
    callWithHandle {
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_carried_photo(
        it,
        _status)
}
    }
    )
    }



    /**
     * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
     * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
     * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
     * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
     * the file. Taking one file in twice changes nothing.
     *
     * # Errors
     * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
     * unpacked. Nothing was taken in.
     * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
     */
    @Throws(FarsidingException::class)override fun `carryIn`(`file`: kotlin.ByteArray): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_in(
        it,
        FfiConverterByteArray.lower(`file`),_status)
}
    }
    )
    }



    /**
     * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
     * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
     * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
     * digits; one that is not here is left out.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     * - `Refused`: the file could not be encoded.
     */
    @Throws(FarsidingException::class)override fun `carryOut`(`visits`: List<kotlin.String>): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_out(
        it,
        FfiConverterSequenceString.lower(`visits`),_status)
}
    }
    )
    }



    /**
     * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
     * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
     * (50331648 bytes).
     *
     * # Errors
     * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `carryPhoto`(`bytes`: kotlin.ByteArray)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_carry_photo(
        it,
        FfiConverterByteArray.lower(`bytes`),_status)
}
    }




    /**
     * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
     * as JSON: `{sha256, length, media}`.
     *
     * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
     * is the media type, such as `image/jpeg`.
     *
     * # Errors
     * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
     * - `NotStored`: the disk failed or is full.
     */
    @Throws(FarsidingException::class)override fun `photoTaken`(`sha256`: kotlin.String, `length`: kotlin.ULong, `media`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_photo_taken(
        it,
        FfiConverterString.lower(`sha256`),FfiConverterULong.lower(`length`),FfiConverterString.lower(`media`),_status)
}
    }
    )
    }



    /**
     * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
     * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
     * `visits` are ids of 32 hexadecimal digits.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `photosOf`(`visits`: List<kotlin.String>): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_of(
        it,
        FfiConverterSequenceString.lower(`visits`),_status)
}
    }
    )
    }



    /**
     * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
     * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
     * sending them shortens the list.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `photosWaiting`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_photos_waiting(
        it,
        _status)
}
    }
    )
    }



    /**
     * The body of the request that enrols this device: signed by the device's key, with a one-time code from
     * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
     *
     * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
     * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
     * in the office's link before the code leaves this device. `name` is what the office calls this device.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the request could not be encoded.
     */
    @Throws(FarsidingException::class)override fun `enrolRequest`(`code`: kotlin.String, `name`: kotlin.String, `organisationKey`: kotlin.String, `serverTime`: kotlin.Long): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrol_request(
        it,
        FfiConverterString.lower(`code`),FfiConverterString.lower(`name`),FfiConverterString.lower(`organisationKey`),FfiConverterLong.lower(`serverTime`),_status)
}
    }
    )
    }



    /**
     * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
     * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
     * `key_statements`, call `enrolled_with` instead.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
     * kept.
     * - `NotStored`: the disk failed or is full.
     */
    @Throws(FarsidingException::class)override fun `enrolled`(`organisationKey`: kotlin.String, `certificate`: kotlin.ByteArray)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled(
        it,
        FfiConverterString.lower(`organisationKey`),FfiConverterByteArray.lower(`certificate`),_status)
}
    }




    /**
     * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
     * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
     * `key_statements`, in their order.
     *
     * # Errors
     * As `enrolled`.
     */
    @Throws(FarsidingException::class)override fun `enrolledWith`(`organisationKey`: kotlin.String, `keyStatements`: List<kotlin.ByteArray>, `certificate`: kotlin.ByteArray)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_enrolled_with(
        it,
        FfiConverterString.lower(`organisationKey`),FfiConverterSequenceByteArray.lower(`keyStatements`),FfiConverterByteArray.lower(`certificate`),_status)
}
    }




    /**
     * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
     * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
     * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
     * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
     * sync goes on, and `status` keeps it.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
     * called again.
     * - `WrongCall`: the log was not asked for.
     * - `NotStored`: the disk failed or is full.
     */
    @Throws(FarsidingException::class)override fun `logReceive`(`reply`: kotlin.ByteArray): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_receive(
        it,
        FfiConverterByteArray.lower(`reply`),_status)
}
    }
    )
    }



    /**
     * The body of the next request about the office's log, for after a sync: send it with `POST` to the
     * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
     * Call this again when `log_receive` says that it is not done, or when a reply got lost.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `logRequest`(): kotlin.ByteArray? {
            return FfiConverterOptionalByteArray.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_log_request(
        it,
        _status)
}
    }
    )
    }



    /**
     * The body of the signed request for a pass, which lets this device send photographs to the office and
     * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `passRequest`(): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_pass_request(
        it,
        _status)
}
    }
    )
    }



    /**
     * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
     * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
     *
     * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
     * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
     * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
     * takes some things later, or null. `revoked` says that the office has revoked this device.
     * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
     * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
     * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
     * that left with them, whose bytes are the caller's to delete.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
     * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
     * - `WrongCall`: no sync was begun.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
     * again next time.
     */
    @Throws(FarsidingException::class)override fun `syncReceive`(`reply`: kotlin.ByteArray): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_receive(
        it,
        FfiConverterByteArray.lower(`reply`),_status)
}
    }
    )
    }



    /**
     * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
     * got lost.
     *
     * # Errors
     * - `WrongCall`: no sync was begun, or the last one is done.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `syncRequest`(): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_request(
        it,
        _status)
}
    }
    )
    }



    /**
     * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
     * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
     * broken off is forgotten; what it brought is kept.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `syncStart`()
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_sync_start(
        it,
        _status)
}
    }




    /**
     * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
     * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
     * named the person. `drafts` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: `drafts` is other JSON.
     */
    @Throws(FarsidingException::class)override fun `binds`(`drafts`: kotlin.String): kotlin.Boolean {
            return FfiConverterBoolean.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_binds(
        it,
        FfiConverterString.lower(`drafts`),_status)
}
    }
    )
    }



    /**
     * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
     * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
     * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
     */
    @Throws(FarsidingException::class)override fun `changePin`(`person`: kotlin.String, `oldPin`: kotlin.String, `newPin`: kotlin.String)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_change_pin(
        it,
        FfiConverterString.lower(`person`),FfiConverterString.lower(`oldPin`),FfiConverterString.lower(`newPin`),_status)
}
    }




    /**
     * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
     * office ends it in the roster, and the person makes a new one with `make_person_key`.
     *
     * # Errors
     * - `NoKey`: the person has no key on this device.
     * - `NotStored`: the disk failed or is full. The key is then still here.
     */
    @Throws(FarsidingException::class)override fun `forgetPersonKey`(`person`: kotlin.String)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_forget_person_key(
        it,
        FfiConverterString.lower(`person`),_status)
}
    }




    /**
     * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
     * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
     * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
     * memory only.
     *
     * # Errors
     * - `WrongCall`: the secret has not 32 bytes.
     */
    @Throws(FarsidingException::class)override fun `keepBeside`(`secret`: kotlin.ByteArray)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_keep_beside(
        it,
        FfiConverterByteArray.lower(`secret`),_status)
}
    }




    /**
     * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
     */override fun `lockPeople`()
        =
    callWithHandle {
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_lock_people(
        it,
        _status)
}
    }




    /**
     * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
     * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
     * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
     * - `HasKey`: the person has a key on this device already.
     * - `NotEnrolled`: no office has enrolled this device.
     * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
     * - `Refused`: `person` is no code, or this device may not say so.
     * - `NotStored`: the disk failed or is full. No key was made.
     */
    @Throws(FarsidingException::class)override fun `makePersonKey`(`person`: kotlin.String, `pin`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_make_person_key(
        it,
        FfiConverterString.lower(`person`),FfiConverterString.lower(`pin`),_status)
}
    }
    )
    }



    /**
     * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
     * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
     * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
     *
     * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
     * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
     * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
     * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
     * the device is enrolled, and `keep_beside` was called.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    @Throws(FarsidingException::class)override fun `peopleHere`(): kotlin.String {
            return FfiConverterString.lift(
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_people_here(
        it,
        _status)
}
    }
    )
    }



    /**
     * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
     * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
     * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
     * they are made.
     *
     * # Errors
     * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
     * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
     * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
     * - `KeyEnded`: the office ended the key.
     * - `NoKey`: the person has no key on this device.
     * - `WeakPin`: the PIN has not six digits; no try was counted.
     * - `WrongCall`: `keep_beside` was not called.
     * - `Refused`: what was kept of the key is damaged.
     * - `NotStored`: the disk failed or is full.
     */
    @Throws(FarsidingException::class)override fun `unlockPerson`(`person`: kotlin.String, `pin`: kotlin.String)
        =
    callWithHandle {
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_method_book_unlock_person(
        it,
        FfiConverterString.lower(`person`),FfiConverterString.lower(`pin`),_status)
}
    }









    companion object {

    /**
     * Opens the book `name` in `folder`, or makes it when there is none. Call `prepare_storage(folder)`
     * first, and wait for it.
     *
     * `folder` is a path; in a browser it is a folder of the origin's private file system. `name` is the
     * name of one SQLite file in that folder: 1 to 200 bytes, without slashes. `key` is the device's secret
     * of exactly 32 bytes (Ed25519), made once with `new_key`. The same key must be given every time:
     * whoever opens the book with another key continues the records as another device. Opening reads and
     * checks every record, which takes longer as records grow.
     *
     * # Errors
     * - `WrongCall`: the key has not 32 bytes, or the name is empty, too long or has a slash.
     * - `NoStorage`: the folder cannot be used, for example because `prepare_storage` has not made it.
     * - `OpenElsewhere`: another program holds the file.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: a later version of this software wrote the file.
     */
    @Throws(FarsidingException::class) fun `open`(`folder`: kotlin.String, `name`: kotlin.String, `key`: kotlin.ByteArray): Book {
            return FfiConverterTypeBook.lift(
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_constructor_book_open(

        FfiConverterString.lower(`folder`),FfiConverterString.lower(`name`),FfiConverterByteArray.lower(`key`),_status)
}
    )
    }



    }

}


/**
 * @suppress
 */
public object FfiConverterTypeBook: FfiConverter<Book, Long> {
    override fun lower(value: Book): Long {
        return value.uniffiCloneHandle()
    }

    override fun lift(value: Long): Book {
        return Book(UniffiWithHandle, value)
    }

    override fun read(buf: ByteBuffer): Book {
        return lift(buf.getLong())
    }

    override fun allocationSize(value: Book) = 8UL

    override fun write(value: Book, buf: ByteBuffer) {
        buf.putLong(lower(value))
    }
}



/**
 * One reading of a text that somebody typed as an amount.
 */
data class AmountReading (
    /**
     * The amount as it goes into a statement, as JSON: `{text, unit, value}`. Its text is exactly what was
     * typed.
     */
    var `amount`: kotlin.String
    ,
    /**
     * The number, in `unit`. It is finite and within what that unit can measure at all.
     */
    var `value`: kotlin.Double
    ,
    /**
     * The unit's symbol: the one in the text, or else the one that was asked for.
     */
    var `unit`: kotlin.String
    ,
    /**
     * The number with its unit, for people: `32650 gal`.
     */
    var `shown`: kotlin.String

){





    companion object
}

/**
 * @suppress
 */
public object FfiConverterTypeAmountReading: FfiConverterRustBuffer<AmountReading> {
    override fun read(buf: ByteBuffer): AmountReading {
        return AmountReading(
            FfiConverterString.read(buf),
            FfiConverterDouble.read(buf),
            FfiConverterString.read(buf),
            FfiConverterString.read(buf),
        )
    }

    override fun allocationSize(value: AmountReading) = (
            FfiConverterString.allocationSize(value.`amount`) +
            FfiConverterDouble.allocationSize(value.`value`) +
            FfiConverterString.allocationSize(value.`unit`) +
            FfiConverterString.allocationSize(value.`shown`)
    )

    override fun write(value: AmountReading, buf: ByteBuffer) {
            FfiConverterString.write(value.`amount`, buf)
            FfiConverterDouble.write(value.`value`, buf)
            FfiConverterString.write(value.`unit`, buf)
            FfiConverterString.write(value.`shown`, buf)
    }
}



/**
 * A photograph's exact bytes out of a carry file.
 */
data class Picture (
    /**
     * Media type, such as `image/jpeg`.
     */
    var `media`: kotlin.String
    ,
    /**
     * The bytes.
     */
    var `bytes`: kotlin.ByteArray

){





    companion object
}

/**
 * @suppress
 */
public object FfiConverterTypePicture: FfiConverterRustBuffer<Picture> {
    override fun read(buf: ByteBuffer): Picture {
        return Picture(
            FfiConverterString.read(buf),
            FfiConverterByteArray.read(buf),
        )
    }

    override fun allocationSize(value: Picture) = (
            FfiConverterString.allocationSize(value.`media`) +
            FfiConverterByteArray.allocationSize(value.`bytes`)
    )

    override fun write(value: Picture, buf: ByteBuffer) {
            FfiConverterString.write(value.`media`, buf)
            FfiConverterByteArray.write(value.`bytes`, buf)
    }
}



/**
 * What a typed text can mean: one amount, or two to choose from, or none and why.
 */
data class ReadAmount (
    /**
     * Exactly what was typed.
     */
    var `text`: kotlin.String
    ,
    /**
     * The readings, at most two. There is one where the text says one thing; two, first with decimals and
     * then with thousands, where only whoever typed the text knows; none where the text is no amount.
     */
    var `readings`: List<AmountReading>
    ,
    /**
     * Why the text is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`,
     * `two_readings`, `cannot_be` (no instrument shows such a number), `other_kind` (the unit measures
     * something else). Empty where the text is one amount.
     */
    var `refused`: kotlin.String
    ,
    /**
     * The same in an English sentence, and in the browser, which has words of its own, the stable name
     * again; empty where the text is one amount.
     */
    var `why`: kotlin.String

){





    companion object
}

/**
 * @suppress
 */
public object FfiConverterTypeReadAmount: FfiConverterRustBuffer<ReadAmount> {
    override fun read(buf: ByteBuffer): ReadAmount {
        return ReadAmount(
            FfiConverterString.read(buf),
            FfiConverterSequenceTypeAmountReading.read(buf),
            FfiConverterString.read(buf),
            FfiConverterString.read(buf),
        )
    }

    override fun allocationSize(value: ReadAmount) = (
            FfiConverterString.allocationSize(value.`text`) +
            FfiConverterSequenceTypeAmountReading.allocationSize(value.`readings`) +
            FfiConverterString.allocationSize(value.`refused`) +
            FfiConverterString.allocationSize(value.`why`)
    )

    override fun write(value: ReadAmount, buf: ByteBuffer) {
            FfiConverterString.write(value.`text`, buf)
            FfiConverterSequenceTypeAmountReading.write(value.`readings`, buf)
            FfiConverterString.write(value.`refused`, buf)
            FfiConverterString.write(value.`why`, buf)
    }
}





/**
 * What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
 * was lost.
 *
 * Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
 * call, never the only thing shown.
 */
sealed class FarsidingException: kotlin.Exception() {

    /**
     * Another tab, window or program holds the book. Use that one, or close it and try again.
     */
    class OpenElsewhere(

        /**
         * What the storage said.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * This place cannot keep records: a private window, no such folder, no permission. Use another place.
     */
    class NoStorage(

        /**
         * What the storage said.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The disk failed or is full, and the entries that this call was to make were not made. Free some space,
     * then make the call again.
     */
    class NotStored(

        /**
         * What the storage said.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * What was handed over breaks a rule, or is not what it claims to be, and was refused whole. Show the
     * reason; the same call would be refused again.
     */
    class Refused(

        /**
         * Which rule it broke.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * What answered is not the office's server: a login page in between, or another address. Try again
     * later, with another network.
     */
    class NotTheOffice(

        /**
         * What was wrong with the answer.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * No office has enrolled this device yet. Records are kept, and nothing is sent: enrol the device first.
     */
    class NotEnrolled(

        /**
         * What was asked for.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The PIN is not six digits, or is among the first that anybody tries. Ask for another one.
     */
    class WeakPin(

        /**
         * What is wrong with the PIN.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The PIN was wrong. Ask again and say how many tries are left, or let the person say that it is
     * forgotten.
     */
    class WrongPin(

        /**
         * What happened, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String,

        /**
         * How many tries are left before the key is locked on this device for good: 1 to 9.
         */
        val `left`: kotlin.UInt
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }, left=${ `left` }"
    }

    /**
     * Too many wrong PINs were tried, and this try was not made. Wait until the time given.
     */
    class PinWaits(

        /**
         * What happened, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String,

        /**
         * From when the next try is allowed: milliseconds since 1970-01-01 UTC by this device's clock.
         */
        val `until`: kotlin.Long
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }, until=${ `until` }"
    }

    /**
     * Ten wrong PINs were tried, and the key is gone from this device. Tell the office, then make a new key.
     */
    class KeyLocked(

        /**
         * What happened, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The office ended the key. Make a new one.
     */
    class KeyEnded(

        /**
         * What happened, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The person has no key on this device. Make one, or go on without: the device alone then names the
     * person.
     */
    class NoKey(

        /**
         * Whose key was asked for, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The person has a key on this device already. Unlock it, or drop it where its PIN is forgotten.
     */
    class HasKey(

        /**
         * Whose key it is, for the log.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }

    /**
     * The calling program made a mistake, such as a key of the wrong length. Mend the program.
     */
    class WrongCall(

        /**
         * Which argument was wrong, and what it should have been.
         */
        val `why`: kotlin.String,

        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */
        val `says`: kotlin.String
        ) : FarsidingException() {
        override val message
            get() = "why=${ `why` }, says=${ `says` }"
    }





    companion object ErrorHandler : UniffiRustCallStatusErrorHandler<FarsidingException> {
        override fun lift(error_buf: RustBuffer.ByValue): FarsidingException = FfiConverterTypeFarsidingError.lift(error_buf)
    }


}

/**
 * @suppress
 */
public object FfiConverterTypeFarsidingError : FfiConverterRustBuffer<FarsidingException> {
    override fun read(buf: ByteBuffer): FarsidingException {


        return when(buf.getInt()) {
            1 -> FarsidingException.OpenElsewhere(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            2 -> FarsidingException.NoStorage(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            3 -> FarsidingException.NotStored(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            4 -> FarsidingException.Refused(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            5 -> FarsidingException.NotTheOffice(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            6 -> FarsidingException.NotEnrolled(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            7 -> FarsidingException.WeakPin(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            8 -> FarsidingException.WrongPin(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                FfiConverterUInt.read(buf),
                )
            9 -> FarsidingException.PinWaits(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                FfiConverterLong.read(buf),
                )
            10 -> FarsidingException.KeyLocked(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            11 -> FarsidingException.KeyEnded(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            12 -> FarsidingException.NoKey(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            13 -> FarsidingException.HasKey(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            14 -> FarsidingException.WrongCall(
                FfiConverterString.read(buf),
                FfiConverterString.read(buf),
                )
            else -> throw RuntimeException("invalid error enum value, something is very wrong!!")
        }
    }

    override fun allocationSize(value: FarsidingException): ULong {
        return when(value) {
            is FarsidingException.OpenElsewhere -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.NoStorage -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.NotStored -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.Refused -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.NotTheOffice -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.NotEnrolled -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.WeakPin -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.WrongPin -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
                + FfiConverterUInt.allocationSize(value.`left`)
            )
            is FarsidingException.PinWaits -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
                + FfiConverterLong.allocationSize(value.`until`)
            )
            is FarsidingException.KeyLocked -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.KeyEnded -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.NoKey -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.HasKey -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
            is FarsidingException.WrongCall -> (
                // Add the size for the Int that specifies the variant plus the size needed for all fields
                4UL
                + FfiConverterString.allocationSize(value.`why`)
                + FfiConverterString.allocationSize(value.`says`)
            )
        }
    }

    override fun write(value: FarsidingException, buf: ByteBuffer) {
        when(value) {
            is FarsidingException.OpenElsewhere -> {
                buf.putInt(1)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.NoStorage -> {
                buf.putInt(2)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.NotStored -> {
                buf.putInt(3)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.Refused -> {
                buf.putInt(4)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.NotTheOffice -> {
                buf.putInt(5)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.NotEnrolled -> {
                buf.putInt(6)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.WeakPin -> {
                buf.putInt(7)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.WrongPin -> {
                buf.putInt(8)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                FfiConverterUInt.write(value.`left`, buf)
                Unit
            }
            is FarsidingException.PinWaits -> {
                buf.putInt(9)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                FfiConverterLong.write(value.`until`, buf)
                Unit
            }
            is FarsidingException.KeyLocked -> {
                buf.putInt(10)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.KeyEnded -> {
                buf.putInt(11)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.NoKey -> {
                buf.putInt(12)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.HasKey -> {
                buf.putInt(13)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
            is FarsidingException.WrongCall -> {
                buf.putInt(14)
                FfiConverterString.write(value.`why`, buf)
                FfiConverterString.write(value.`says`, buf)
                Unit
            }
        }.let { /* this makes the `when` an expression, which ensures it is exhaustive */ }
    }

}




/**
 * @suppress
 */
public object FfiConverterOptionalString: FfiConverterRustBuffer<kotlin.String?> {
    override fun read(buf: ByteBuffer): kotlin.String? {
        if (buf.get().toInt() == 0) {
            return null
        }
        return FfiConverterString.read(buf)
    }

    override fun allocationSize(value: kotlin.String?): ULong {
        if (value == null) {
            return 1UL
        } else {
            return 1UL + FfiConverterString.allocationSize(value)
        }
    }

    override fun write(value: kotlin.String?, buf: ByteBuffer) {
        if (value == null) {
            buf.put(0)
        } else {
            buf.put(1)
            FfiConverterString.write(value, buf)
        }
    }
}




/**
 * @suppress
 */
public object FfiConverterOptionalByteArray: FfiConverterRustBuffer<kotlin.ByteArray?> {
    override fun read(buf: ByteBuffer): kotlin.ByteArray? {
        if (buf.get().toInt() == 0) {
            return null
        }
        return FfiConverterByteArray.read(buf)
    }

    override fun allocationSize(value: kotlin.ByteArray?): ULong {
        if (value == null) {
            return 1UL
        } else {
            return 1UL + FfiConverterByteArray.allocationSize(value)
        }
    }

    override fun write(value: kotlin.ByteArray?, buf: ByteBuffer) {
        if (value == null) {
            buf.put(0)
        } else {
            buf.put(1)
            FfiConverterByteArray.write(value, buf)
        }
    }
}




/**
 * @suppress
 */
public object FfiConverterOptionalTypePicture: FfiConverterRustBuffer<Picture?> {
    override fun read(buf: ByteBuffer): Picture? {
        if (buf.get().toInt() == 0) {
            return null
        }
        return FfiConverterTypePicture.read(buf)
    }

    override fun allocationSize(value: Picture?): ULong {
        if (value == null) {
            return 1UL
        } else {
            return 1UL + FfiConverterTypePicture.allocationSize(value)
        }
    }

    override fun write(value: Picture?, buf: ByteBuffer) {
        if (value == null) {
            buf.put(0)
        } else {
            buf.put(1)
            FfiConverterTypePicture.write(value, buf)
        }
    }
}




/**
 * @suppress
 */
public object FfiConverterSequenceString: FfiConverterRustBuffer<List<kotlin.String>> {
    override fun read(buf: ByteBuffer): List<kotlin.String> {
        val len = buf.getInt()
        return List<kotlin.String>(len) {
            FfiConverterString.read(buf)
        }
    }

    override fun allocationSize(value: List<kotlin.String>): ULong {
        val sizeForLength = 4UL
        val sizeForItems = value.map { FfiConverterString.allocationSize(it) }.sum()
        return sizeForLength + sizeForItems
    }

    override fun write(value: List<kotlin.String>, buf: ByteBuffer) {
        buf.putInt(value.size)
        value.iterator().forEach {
            FfiConverterString.write(it, buf)
        }
    }
}




/**
 * @suppress
 */
public object FfiConverterSequenceByteArray: FfiConverterRustBuffer<List<kotlin.ByteArray>> {
    override fun read(buf: ByteBuffer): List<kotlin.ByteArray> {
        val len = buf.getInt()
        return List<kotlin.ByteArray>(len) {
            FfiConverterByteArray.read(buf)
        }
    }

    override fun allocationSize(value: List<kotlin.ByteArray>): ULong {
        val sizeForLength = 4UL
        val sizeForItems = value.map { FfiConverterByteArray.allocationSize(it) }.sum()
        return sizeForLength + sizeForItems
    }

    override fun write(value: List<kotlin.ByteArray>, buf: ByteBuffer) {
        buf.putInt(value.size)
        value.iterator().forEach {
            FfiConverterByteArray.write(it, buf)
        }
    }
}




/**
 * @suppress
 */
public object FfiConverterSequenceTypeAmountReading: FfiConverterRustBuffer<List<AmountReading>> {
    override fun read(buf: ByteBuffer): List<AmountReading> {
        val len = buf.getInt()
        return List<AmountReading>(len) {
            FfiConverterTypeAmountReading.read(buf)
        }
    }

    override fun allocationSize(value: List<AmountReading>): ULong {
        val sizeForLength = 4UL
        val sizeForItems = value.map { FfiConverterTypeAmountReading.allocationSize(it) }.sum()
        return sizeForLength + sizeForItems
    }

    override fun write(value: List<AmountReading>, buf: ByteBuffer) {
        buf.putInt(value.size)
        value.iterator().forEach {
            FfiConverterTypeAmountReading.write(it, buf)
        }
    }
}








        /**
         * Computes one formula. `formula` is its name, `line` one JSON object with its inputs, as `farsiding calc`
         * takes it: `calculate("ctl", "{\"temp_f\": 80, \"rd60\": 0.51}")`. `formulas` lists names, inputs, units
         * and ranges. Every number's key may be followed by the same key with `_pm`: its ± at 95 %, in the same
         * unit.
         *
         * Returns one JSON object: `{ok: true, value, unit, plus_minus, formula, source, findings, …}` with
         * `plus_minus` at 95 % in the unit of `value`, or `{ok: false, error, message}`. Never fails: what is wrong
         * with the line is said there.
         */ fun `calculate`(`formula`: kotlin.String, `line`: kotlin.String): kotlin.String {
            return FfiConverterString.lift(
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_calculate(

        FfiConverterString.lower(`formula`),FfiConverterString.lower(`line`),_status)
}
    )
    }


        /**
         * Every formula, as a JSON list of `{name, about, unit, inputs, method, source, wrong_when}`. An input of
         * the kind `number` is `{key, about, kind, name, unit, low, high, presumed_half_width, required, default?}`:
         * `low` and `high` are its range in `unit`. Never fails.
         */ fun `formulas`(): kotlin.String {
            return FfiConverterString.lift(
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_formulas(

        _status)
}
    )
    }


        /**
         * Reads a text that somebody typed where an amount in `unit` is asked for. A text that is no amount is no
         * error: the answer says so, and the text is kept.
         *
         * `unit` is a unit's symbol, such as `psi` (gauge), `psia`, `°F`, `gal`, `lb`, `in` or `%`. Where the text
         * names another unit of the same kind, that unit is taken: `8 bar` for `psi`. `decimal_mark` is `.` or `,`,
         * the mark that is usual where the text was typed. Without it a text that says two things (`32,650`,
         * `1.234`) is answered with both.
         *
         * # Errors
         * - `WrongCall`: `unit` is no symbol that the core knows (`why` lists all), or `decimal_mark` is another
         * mark.
         */
    @Throws(FarsidingException::class) fun `readAmount`(`text`: kotlin.String, `unit`: kotlin.String, `decimalMark`: kotlin.String?): ReadAmount {
            return FfiConverterTypeReadAmount.lift(
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_read_amount(

        FfiConverterString.lower(`text`),FfiConverterString.lower(`unit`),FfiConverterOptionalString.lower(`decimalMark`),_status)
}
    )
    }


        /**
         * A new secret of 32 random bytes: a device's key for `Book::open`, or the secret for `keep_beside`. The
         * caller keeps it where the platform keeps secrets. Whoever loses a device's key cannot open its book as
         * that device again.
         *
         * # Errors
         * - `NoStorage`: the platform has no randomness.
         */
    @Throws(FarsidingException::class) fun `newKey`(): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_new_key(

        _status)
}
    )
    }


        /**
         * Returns where `pin` may be chosen as a PIN: six decimal digits, not one digit or one pair or triple over
         * and over, and no run up or down.
         *
         * # Errors
         * - `WeakPin`: the PIN is none of these; `why` says which rule it broke.
         */
    @Throws(FarsidingException::class) fun `pinMayBeChosen`(`pin`: kotlin.String)
        =
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(

        FfiConverterString.lower(`pin`),_status)
}



        /**
         * The key of 32 bytes that a shell seals its storage under, where a PIN opens the phone. It is derived by
         * Argon2id with 64 MiB and three passes, which takes about a second.
         *
         * `pin` has six decimal digits, `beside` is the secret of 32 bytes that `keep_beside` takes, and `salt` has
         * 16 random bytes that are kept with what is sealed.
         *
         * # Errors
         * - `WeakPin`: the PIN has not six digits.
         * - `WrongCall`: `beside` has not 32 bytes, or `salt` has not 16.
         */
    @Throws(FarsidingException::class) fun `pinStorageKey`(`pin`: kotlin.String, `beside`: kotlin.ByteArray, `salt`: kotlin.ByteArray): kotlin.ByteArray {
            return FfiConverterByteArray.lift(
    uniffiRustCallWithError(FarsidingException) { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_pin_storage_key(

        FfiConverterString.lower(`pin`),FfiConverterByteArray.lower(`beside`),FfiConverterByteArray.lower(`salt`),_status)
}
    )
    }


        /**
         * The version of the core as `major.minor.patch`, for an about page and for support. Never fails.
         */ fun `coreVersion`(): kotlin.String {
            return FfiConverterString.lift(
    uniffiRustCall() { _status ->
    UniffiLib.uniffi_farsiding_bindings_fn_func_core_version(

        _status)
}
    )
    }


        /**
         * Makes `folder` ready for books. Wait for it before `Book::open`; calling it again changes nothing.
         *
         * Natively `folder` is a path, and the folder is made with those above it. In a browser `folder` is a folder
         * of the origin's private file system; the call must be made in a dedicated worker and takes hold of that
         * folder, which one worker at a time can do.
         *
         * # Errors
         * - `NoStorage`: the folder cannot be made, or the browser keeps nothing durable (a private window).
         * - `OpenElsewhere`: another tab holds the folder (browsers only).
         * - `NotStored`: the browser gives no more room (browsers only).
         */
    @Throws(FarsidingException::class)
    @Suppress("ASSIGNED_BUT_NEVER_ACCESSED_VARIABLE")
     suspend fun `prepareStorage`(`folder`: kotlin.String) {
        return uniffiRustCallAsync(
        UniffiLib.uniffi_farsiding_bindings_fn_func_prepare_storage(FfiConverterString.lower(`folder`),),
        { future, callback, continuation -> UniffiLib.ffi_farsiding_bindings_rust_future_poll_void(future, callback, continuation) },
        { future, continuation -> UniffiLib.ffi_farsiding_bindings_rust_future_complete_void(future, continuation) },
        { future -> UniffiLib.ffi_farsiding_bindings_rust_future_free_void(future) },
        // lift function
        { Unit },

        // Error FFI converter
        FarsidingException.ErrorHandler,
    )
    }


