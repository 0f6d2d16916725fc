// @generated from the Rust API by bindings/generate. Do not edit.
/* tslint:disable */
/* eslint-disable */
// @ts-nocheck
import nativeModule from "./farsiding_bindings-ffi";
import { type UniffiRustFutureContinuationCallback, type UniffiForeignFutureDroppedCallback, type UniffiForeignFutureDroppedCallbackStruct,
} from "./farsiding_bindings-ffi";
import { type FfiConverter, type UniffiByteArray, type UniffiGcObject, type UniffiHandle, type UniffiObjectFactory, AbstractFfiConverterByteArray, Cursor, FfiConverterArray, FfiConverterFloat64, FfiConverterInt64, FfiConverterObject, FfiConverterOptional, FfiConverterUInt64, FfiConverterUInt8, FfiConverterUint8Array, RustBuffer, UniffiAbstractObject, UniffiError, UniffiInternalError, UniffiRustCaller, destructorGuardSymbol, pointerLiteralSymbol, uniffiCreateFfiConverterString, uniffiCreateRecord, uniffiRustCallAsync, uniffiTypeNameSymbol, variantOrdinalSymbol,
} from "@ubjs/core";
const uniffiCaller = new UniffiRustCaller(() => ({ code: 0 }));

const uniffiIsDebug =
  // @ts-ignore -- The process global might not be defined
  typeof process !== "object" ||
  // @ts-ignore -- The process global might not be defined
  process?.env?.NODE_ENV !== "production" ||
  false;

// Public interface members begin here.

/**
 * Version of the core, as `major.minor.patch`, for the about page and for support.
 */
export function coreVersion(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_core_version(
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Makes `folder` ready for books; wait for it before opening one. Idempotent.
 *
 * Natively it creates the folder. In a browser it must run in a dedicated worker and takes hold of the
 * origin's private file system, which one worker at a time can do.
 *
 * # Errors
 * `OpenElsewhere` when another tab holds it, `NoStorage` where nothing durable exists (private window).
 */
export async function prepareStorage(folder: string, asyncOpts_?: { signal: AbortSignal }): Promise<void> /*throws*/ {
    return await uniffiRustCallAsync(
            /*rustCaller:*/ uniffiCaller,
            /*rustFutureFunc:*/ () => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_prepare_storage(FfiConverterString.lower(folder, nativeModule().rustbuffer_alloc)
                );
            },
            /*pollFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_poll_void,
            /*cancelFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_cancel_void,
            /*completeFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_complete_void,
            /*freeFunc:*/ nativeModule().ffi_farsiding_bindings_rust_future_free_void,
            /*liftFunc:*/ (_v) => {},
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
            /*asyncOpts:*/ asyncOpts_,
            /*errorHandler:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble)
        );
    }

/**
 * Reads what was typed, in the chosen unit unless the text names another. The text is always kept.
 *
 * # Errors
 * `WrongCall` when `unit` is no symbol the core knows.
 */
export function readAmount(text: string, unit: string): ReadAmount /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_read_amount(
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(unit, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterTypeReadAmount.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * How much is in the book.
 */
export type BookSize = {
    /**
     * Notes.
     */
    notes: bigint,
    /**
     * Bytes of the document when exported.
     */
    documentBytes: bigint
}

/**
 * Generated factory for {@link BookSize} record objects.
 */
export const BookSize = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<BookSize, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<BookSize>,
    });
})();

const FfiConverterTypeBookSize = (() => {
    type TypeName = BookSize;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                notes: FfiConverterUInt64.readFromCursor(c),
                documentBytes: FfiConverterUInt64.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterUInt64.writeIntoCursor(value.notes, c);
            FfiConverterUInt64.writeIntoCursor(value.documentBytes, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterUInt64.allocationSize(value.notes) +
             FfiConverterUInt64.allocationSize(value.documentBytes);

        }
    };
    return new FFIConverter();
})();

const stringConverter = (() => {
    const encoder = new TextEncoder();
    const decoder = new TextDecoder();
    return {
        stringToBytes: (s: string) => encoder.encode(s),
        bytesToString: (ab: UniffiByteArray) => decoder.decode(ab),
        stringByteLength: (s: string) => encoder.encode(s).byteLength,
        writeStringIntoBuffer: (s: string, buf: any, offset: number): number => {
            const view = new Uint8Array(
                buf.arrayBuffer,
                offset,
                buf.arrayBuffer.byteLength - offset,
            );
            return encoder.encodeInto(s, view).written;
        },
        readStringFromBuffer: (buf: any, offset: number, length: number): string =>
            decoder.decode(new Uint8Array(buf.arrayBuffer, offset, length)),
    };
})();
const FfiConverterString = uniffiCreateFfiConverterString(stringConverter);

/**
 * One note of the book, checked when it was read.
 */
export type Note = {
    /**
     * SHA-256 of the text and the time, in hexadecimal.
     */
    id: string,
    /**
     * What was written.
     */
    text: string,
    /**
     * When, in milliseconds since 1970 UTC, as the caller had it.
     */
    writtenMs: bigint,
    /**
     * The writer's Ed25519 public key, in hexadecimal. (No bytes in records: Kotlin would compare them by
     * identity, so that two equal notes would differ.)
     */
    writer: string
}

/**
 * Generated factory for {@link Note} record objects.
 */
export const Note = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<Note, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<Note>,
    });
})();

const FfiConverterTypeNote = (() => {
    type TypeName = Note;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                id: FfiConverterString.readFromCursor(c),
                text: FfiConverterString.readFromCursor(c),
                writtenMs: FfiConverterInt64.readFromCursor(c),
                writer: FfiConverterString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.id, c);
            FfiConverterString.writeIntoCursor(value.text, c);
            FfiConverterInt64.writeIntoCursor(value.writtenMs, c);
            FfiConverterString.writeIntoCursor(value.writer, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.id) +
             FfiConverterString.allocationSize(value.text) +
             FfiConverterInt64.allocationSize(value.writtenMs) +
             FfiConverterString.allocationSize(value.writer);

        }
    };
    return new FFIConverter();
})();

/**
 * A typed amount, its reading, and what is odd about it.
 */
export type ReadAmount = {
    /**
     * Exactly what was typed.
     */
    text: string,
    /**
     * The unit's symbol that counts, from the text or else as chosen.
     */
    unit: string,
    /**
     * The number in that unit; absent when the text holds none.
     */
    value?: number,
    /**
     * Findings by name, in the order met.
     */
    findings: Array<string>
}

/**
 * Generated factory for {@link ReadAmount} record objects.
 */
export const ReadAmount = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<ReadAmount, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<ReadAmount>,
    });
})();

const FfiConverterTypeReadAmount = (() => {
    type TypeName = ReadAmount;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                text: FfiConverterString.readFromCursor(c),
                unit: FfiConverterString.readFromCursor(c),
                value: FfiConverterOptionalFloat64.readFromCursor(c),
                findings: FfiConverterSequenceString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.text, c);
            FfiConverterString.writeIntoCursor(value.unit, c);
            FfiConverterOptionalFloat64.writeIntoCursor(value.value, c);
            FfiConverterSequenceString.writeIntoCursor(value.findings, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.text) +
             FfiConverterString.allocationSize(value.unit) +
             FfiConverterOptionalFloat64.allocationSize(value.value) +
             FfiConverterSequenceString.allocationSize(value.findings);

        }
    };
    return new FFIConverter();
})();


// Error type: Trouble
export enum Trouble_Tags {
    OpenElsewhere = "OpenElsewhere",
    NoStorage = "NoStorage",
    NotStored = "NotStored",
    Refused = "Refused",
    WrongCall = "WrongCall"
}
/**
 * What went wrong, as far as the caller can do something about it.
 *
 * `why` is for the log and the support call, in English, never the only thing shown.
 */
export const Trouble = (() => {

    type OpenElsewhere__interface = {
        tag: Trouble_Tags.OpenElsewhere;
        inner:
Readonly<{why: string}>
    };
    /**
     * Another tab, window or program holds the book: use that one, or close it.
     */
    class OpenElsewhere_ extends UniffiError implements OpenElsewhere__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.OpenElsewhere;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "OpenElsewhere");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): OpenElsewhere_ {
            return new OpenElsewhere_(inner);
        }

        static instanceOf(obj: any): obj is OpenElsewhere_ {
            return obj.tag === Trouble_Tags.OpenElsewhere;
        }
        static hasInner(obj: any): obj is OpenElsewhere_ {
            return OpenElsewhere_.instanceOf(obj);
        }

        static getInner(obj: OpenElsewhere_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type NoStorage__interface = {
        tag: Trouble_Tags.NoStorage;
        inner:
Readonly<{why: string}>
    };
    /**
     * This place cannot keep records (private window, no such folder, no permission): use another.
     */
    class NoStorage_ extends UniffiError implements NoStorage__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.NoStorage;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "NoStorage");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): NoStorage_ {
            return new NoStorage_(inner);
        }

        static instanceOf(obj: any): obj is NoStorage_ {
            return obj.tag === Trouble_Tags.NoStorage;
        }
        static hasInner(obj: any): obj is NoStorage_ {
            return NoStorage_.instanceOf(obj);
        }

        static getInner(obj: NoStorage_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type NotStored__interface = {
        tag: Trouble_Tags.NotStored;
        inner:
Readonly<{why: string}>
    };
    /**
     * The disk refused or is full: free space, then try again. Nothing was lost that was confirmed.
     */
    class NotStored_ extends UniffiError implements NotStored__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.NotStored;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "NotStored");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): NotStored_ {
            return new NotStored_(inner);
        }

        static instanceOf(obj: any): obj is NotStored_ {
            return obj.tag === Trouble_Tags.NotStored;
        }
        static hasInner(obj: any): obj is NotStored_ {
            return NotStored_.instanceOf(obj);
        }

        static getInner(obj: NotStored_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type Refused__interface = {
        tag: Trouble_Tags.Refused;
        inner:
Readonly<{why: string}>
    };
    /**
     * What was handed over is not what it claims to be, so it was refused whole.
     */
    class Refused_ extends UniffiError implements Refused__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.Refused;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "Refused");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): Refused_ {
            return new Refused_(inner);
        }

        static instanceOf(obj: any): obj is Refused_ {
            return obj.tag === Trouble_Tags.Refused;
        }
        static hasInner(obj: any): obj is Refused_ {
            return Refused_.instanceOf(obj);
        }

        static getInner(obj: Refused_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type WrongCall__interface = {
        tag: Trouble_Tags.WrongCall;
        inner:
Readonly<{why: string}>
    };
    /**
     * A mistake in the calling program, such as a key of the wrong length.
     */
    class WrongCall_ extends UniffiError implements WrongCall__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.WrongCall;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "WrongCall");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): WrongCall_ {
            return new WrongCall_(inner);
        }

        static instanceOf(obj: any): obj is WrongCall_ {
            return obj.tag === Trouble_Tags.WrongCall;
        }
        static hasInner(obj: any): obj is WrongCall_ {
            return WrongCall_.instanceOf(obj);
        }

        static getInner(obj: WrongCall_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    function instanceOf(obj: any): obj is Trouble {
        return obj[uniffiTypeNameSymbol] === "Trouble";
    }

    return Object.freeze({
        instanceOf,
  OpenElsewhere: OpenElsewhere_,
  NoStorage: NoStorage_,
  NotStored: NotStored_,
  Refused: Refused_,
  WrongCall: WrongCall_
    });

})();
/**
 * What went wrong, as far as the caller can do something about it.
 *
 * `why` is for the log and the support call, in English, never the only thing shown.
 */
export type Trouble = InstanceType<
    typeof Trouble['OpenElsewhere' | 'NoStorage' | 'NotStored' | 'Refused' | 'WrongCall']
>;

// FfiConverter for enum Trouble
const FfiConverterTypeTrouble = (() => {
    type TypeName = Trouble;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            switch (c.readI32()) {
                case 1: return new Trouble.OpenElsewhere({why: FfiConverterString.readFromCursor(c) });
                case 2: return new Trouble.NoStorage({why: FfiConverterString.readFromCursor(c) });
                case 3: return new Trouble.NotStored({why: FfiConverterString.readFromCursor(c) });
                case 4: return new Trouble.Refused({why: FfiConverterString.readFromCursor(c) });
                case 5: return new Trouble.WrongCall({why: FfiConverterString.readFromCursor(c) });
                default: throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            switch (value.tag) {
                case Trouble_Tags.OpenElsewhere: {
                    c.writeI32(1);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.NoStorage: {
                    c.writeI32(2);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.NotStored: {
                    c.writeI32(3);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.Refused: {
                    c.writeI32(4);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.WrongCall: {
                    c.writeI32(5);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                default:
                    // Throwing from here means that Trouble_Tags hasn't matched an ordinal.
                    throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
        allocationSize(value: TypeName): number {
            switch (value.tag) {
                case Trouble_Tags.OpenElsewhere: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.NoStorage: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.NotStored: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.Refused: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.WrongCall: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                default: throw new UniffiInternalError.UnexpectedEnumCase();
            }
        }
    }
    return new FFIConverter();
})();

/**
 * An open book. Calls are serialised; none keeps a lock after it returns.
 */
export interface BookLike {

/**
 * The whole book as one mergeable document, to hand to another device.
 *
 * # Errors
 * None today; declared because every call that reads the book may fail.
 */
    document() /*throws*/: Uint8Array;
/**
 * Takes in another device's document; returns how many notes were new here.
 *
 * # Errors
 * `Refused`, and nothing is taken in, when the bytes are no document or one note does not verify.
 */
    merge(document: Uint8Array) /*throws*/: bigint;
/**
 * All notes, oldest first, each with its signature checked.
 *
 * # Errors
 * `Refused` when a stored note does not verify.
 */
    notes() /*throws*/: Array<Note>;
/**
 * How much is in the book.
 *
 * # Errors
 * `NotStored` when the file cannot be read.
 */
    size() /*throws*/: BookSize;
/**
 * Signs and stores one note; when it returns, the note is on the disk.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    write(text: string, writtenMs: bigint) /*throws*/: Note;
/**
 * Signs and stores many notes of one instant in one transaction.
 *
 * # Errors
 * `NotStored` when the disk refuses; then none is stored.
 */
    writeAll(texts: Array<string>, writtenMs: bigint) /*throws*/: bigint;
}
/**
 * @deprecated Use `BookLike` instead.
 */
export type BookInterface = BookLike;


/**
 * An open book. Calls are serialised; none keeps a lock after it returns.
 */
export class Book extends UniffiAbstractObject implements BookLike {

    readonly [uniffiTypeNameSymbol] = "Book";
    readonly [destructorGuardSymbol]: UniffiGcObject;
    readonly [pointerLiteralSymbol]: UniffiHandle;
    // No primary constructor declared for this class.
private constructor(pointer: UniffiHandle) {
    super();
    this[pointerLiteralSymbol] = pointer;
    this[destructorGuardSymbol] = uniffiTypeBookObjectFactory.bless(pointer);
}


/**
 * Opens or makes the book `name` in `folder`. `key` is the device's 32-byte Ed25519 secret.
 *
 * # Errors
 * `NoStorage` before `prepare_storage`, `WrongCall` for a key of another length, `Refused` when the
 * file is no book.
 */
    static open(folder: string, name: string, key: Uint8Array): BookLike /*throws*/ {
    return FfiConverterTypeBook.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_constructor_book_open(
        FfiConverterString.lower(folder, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(name, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(key, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }



/**
 * The whole book as one mergeable document, to hand to another device.
 *
 * # Errors
 * None today; declared because every call that reads the book may fail.
 */
    document(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_document(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterUint8Array.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes in another device's document; returns how many notes were new here.
 *
 * # Errors
 * `Refused`, and nothing is taken in, when the bytes are no document or one note does not verify.
 */
    merge(document: Uint8Array): bigint /*throws*/ {
    return FfiConverterUInt64.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_merge(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(document, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }

/**
 * All notes, oldest first, each with its signature checked.
 *
 * # Errors
 * `Refused` when a stored note does not verify.
 */
    notes(): Array<Note> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_notes(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceTypeNote.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * How much is in the book.
 *
 * # Errors
 * `NotStored` when the file cannot be read.
 */
    size(): BookSize /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_size(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterTypeBookSize.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Signs and stores one note; when it returns, the note is on the disk.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    write(text: string, writtenMs: bigint): Note /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_write(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
        FfiConverterInt64.lower(writtenMs, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterTypeNote.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Signs and stores many notes of one instant in one transaction.
 *
 * # Errors
 * `NotStored` when the disk refuses; then none is stored.
 */
    writeAll(texts: Array<string>, writtenMs: bigint): bigint /*throws*/ {
    return FfiConverterUInt64.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_write_all(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterSequenceString.lower(texts, nativeModule().rustbuffer_alloc),
        FfiConverterInt64.lower(writtenMs, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }


    uniffiDestroy(): void {
        const ptr = (this as any)[destructorGuardSymbol];
        if (ptr !== undefined) {
            const pointer = uniffiTypeBookObjectFactory.pointer(this);
            uniffiTypeBookObjectFactory.freePointer(pointer);
            uniffiTypeBookObjectFactory.unbless(ptr);
            delete (this as any)[destructorGuardSymbol];
        }
    }

    static instanceOf(obj_: any): obj_ is Book {
        return uniffiTypeBookObjectFactory.isConcreteType(obj_);
    }


}

const uniffiTypeBookObjectFactory: UniffiObjectFactory<BookLike> = (() => {

    /// <reference lib="es2021" />
    const registry = typeof FinalizationRegistry !== 'undefined' ? new FinalizationRegistry<UniffiHandle>((heldValue: UniffiHandle) => {
        uniffiTypeBookObjectFactory.freePointer(heldValue);
    }) : null;

    return {
    create(pointer: UniffiHandle): BookLike {
        const instance = Object.create(Book.prototype);
        instance[pointerLiteralSymbol] = pointer;
        instance[destructorGuardSymbol] = this.bless(pointer);
        instance[uniffiTypeNameSymbol] = "Book";
        return instance;
    },


    bless(p: UniffiHandle): UniffiGcObject {
        const ptr = {
            p, // make sure this object doesn't get optimized away.
            markDestroyed: () => undefined,
        };
        if (registry) {
            registry.register(ptr, p, ptr);
        }
        return ptr;
    },

    unbless(ptr_: UniffiGcObject) {
        if (registry) {
            registry.unregister(ptr_);
        }
    },

    pointer(obj_: BookLike): UniffiHandle {
        if ((obj_ as any)[destructorGuardSymbol] === undefined) {
            throw new UniffiInternalError.UnexpectedNullPointer();
        }
        return (obj_ as any)[pointerLiteralSymbol];
    },

    clonePointer(obj_: BookLike): UniffiHandle {
        const pointer = this.pointer(obj_);
        return uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => nativeModule().uniffi_farsiding_bindings_fn_clone_book(pointer, callStatus),
            /*liftString:*/ FfiConverterString.lift
        );
    },

    freePointer(pointer: UniffiHandle): void {
        uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => nativeModule().uniffi_farsiding_bindings_fn_free_book(pointer, callStatus),
            /*liftString:*/ FfiConverterString.lift
        );
    },

    isConcreteType(obj_: any): obj_ is BookLike {
        return obj_[destructorGuardSymbol] && obj_[uniffiTypeNameSymbol] === "Book";
    },
}})();
const FfiConverterTypeBook = new FfiConverterObject(uniffiTypeBookObjectFactory);

// FfiConverter for number | undefined
const FfiConverterOptionalFloat64 = new FfiConverterOptional(FfiConverterFloat64);

// FfiConverter for Array<string>
const FfiConverterSequenceString = new FfiConverterArray(FfiConverterString);

// FfiConverter for Array<Note>
const FfiConverterSequenceTypeNote = new FfiConverterArray(FfiConverterTypeNote);


/**
 * This should be called before anything else.
 *
 * It is likely that this is being done for you by the library's `index.ts`.
 *
 * It checks versions of uniffi between when the Rust scaffolding was generated
 * and when the bindings were generated.
 *
 * It also initializes the machinery to enable Rust to talk back to Javascript.
 */
function uniffiEnsureInitialized() {
    // Get the bindings contract version from our ComponentInterface
    const bindingsContractVersion = 30;
    // Get the scaffolding contract version by calling the into the dylib
    const scaffoldingContractVersion = nativeModule().ffi_farsiding_bindings_uniffi_contract_version();
    if (bindingsContractVersion !== scaffoldingContractVersion) {
        throw new UniffiInternalError.ContractVersionMismatch(scaffoldingContractVersion, bindingsContractVersion);
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_core_version() !== 5233) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_core_version");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_prepare_storage() !== 59990) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_prepare_storage");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_read_amount() !== 11921) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_read_amount");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_constructor_book_open() !== 21118) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_constructor_book_open");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_document() !== 45244) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_document");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_merge() !== 30898) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_merge");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_notes() !== 54059) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_notes");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_size() !== 7346) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_size");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_write() !== 24591) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_write");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_write_all() !== 44599) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_write_all");
    }

    }

export default Object.freeze({
  initialize: uniffiEnsureInitialized,
  converters: {
    FfiConverterTypeBook,
    FfiConverterTypeBookSize,
    FfiConverterTypeNote,
    FfiConverterTypeReadAmount,
    FfiConverterTypeTrouble,
  }
});
