// @generated from the Rust API by bindings/generate. Do not edit.
/* tslint:disable */
/* eslint-disable */
// @ts-nocheck
import nativeModule from "./farsiding_bindings-ffi";
import { type UniffiRustFutureContinuationCallback, type UniffiForeignFutureDroppedCallback, type UniffiForeignFutureDroppedCallbackStruct,
} from "./farsiding_bindings-ffi";
import { type FfiConverter, type UniffiByteArray, type UniffiGcObject, type UniffiHandle, type UniffiObjectFactory, AbstractFfiConverterByteArray, Cursor, FfiConverterArray, FfiConverterBool, FfiConverterFloat64, FfiConverterInt64, FfiConverterObject, FfiConverterOptional, FfiConverterUInt32, FfiConverterUInt64, FfiConverterUInt8, FfiConverterUint8Array, RustBuffer, UniffiAbstractObject, UniffiError, UniffiInternalError, UniffiRustCaller, destructorGuardSymbol, pointerLiteralSymbol, uniffiCreateFfiConverterString, uniffiCreateRecord, uniffiRustCallAsync, uniffiTypeNameSymbol, variantOrdinalSymbol,
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
 * Answers one line of JSON for a formula by its name, as `farsiding calc` does. Never fails: what is
 * wrong with the line is said in the answer.
 */
export function calculate(formula: string, line: string): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_calculate(
        FfiConverterString.lower(formula, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(line, nativeModule().rustbuffer_alloc),
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
 * Every formula with its inputs, ranges and source, as JSON.
 */
export function formulas(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_formulas(
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
 * A new device key: 32 secret bytes, which the shell keeps where the platform keeps secrets.
 *
 * # Errors
 * `NoStorage` when the platform has no randomness.
 */
export function newKey(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_new_key(
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
 * Whether these six digits may be chosen for a PIN.
 *
 * # Errors
 * `WeakPin` when they are not six, or among the first that anybody tries.
 */
export function pinMayBeChosen(pin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * The key that a shell seals its storage under where a PIN opens the phone (Argon2id, 64 MiB, three
 * passes): 32 bytes out of six digits, a random salt of 16 bytes and the 32 bytes kept beside. Takes about
 * a second.
 *
 * # Errors
 * `WeakPin` when these are no six digits, `WrongCall` for other lengths.
 */
export function pinStorageKey(pin: string, beside: Uint8Array, salt: Uint8Array): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_pin_storage_key(
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(beside, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(salt, nativeModule().rustbuffer_alloc),
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
 * Reads what was typed where an amount in `unit` is asked for, unless the text names another unit of its kind.
 * `decimal_mark` (`.` or `,`) is the mark usual where it was typed; without it a text that says two things ("32,650",
 * "1.234") is answered with both.
 *
 * # Errors
 * `WrongCall` when `unit` is no symbol the core knows, or the mark is neither point nor comma.
 */
export function readAmount(text: string, unit: string, decimalMark: string | undefined): ReadAmount /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_func_read_amount(
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(unit, nativeModule().rustbuffer_alloc),
        FfiConverterOptionalString.lower(decimalMark, nativeModule().rustbuffer_alloc),
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
 * A reading of what was typed.
 */
export type AmountReading = {
    /**
     * The amount as it goes into a statement, as JSON; its text is exactly what was typed.
     */
    amount: string,
    /**
     * The number, in `unit`.
     */
    value: number,
    /**
     * The unit's symbol, from the text or else as chosen.
     */
    unit: string,
    /**
     * The number with its unit, for people: "32650 gal".
     */
    shown: string
}

/**
 * Generated factory for {@link AmountReading} record objects.
 */
export const AmountReading = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<AmountReading, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<AmountReading>,
    });
})();

const FfiConverterTypeAmountReading = (() => {
    type TypeName = AmountReading;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                amount: FfiConverterString.readFromCursor(c),
                value: FfiConverterFloat64.readFromCursor(c),
                unit: FfiConverterString.readFromCursor(c),
                shown: FfiConverterString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.amount, c);
            FfiConverterFloat64.writeIntoCursor(value.value, c);
            FfiConverterString.writeIntoCursor(value.unit, c);
            FfiConverterString.writeIntoCursor(value.shown, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.amount) +
             FfiConverterFloat64.allocationSize(value.value) +
             FfiConverterString.allocationSize(value.unit) +
             FfiConverterString.allocationSize(value.shown);

        }
    };
    return new FFIConverter();
})();

/**
 * A photograph's exact bytes out of a carry file.
 */
export type Picture = {
    /**
     * Media type, such as `image/jpeg`.
     */
    media: string,
    /**
     * The bytes.
     */
    bytes: Uint8Array
}

/**
 * Generated factory for {@link Picture} record objects.
 */
export const Picture = (() => {
    const defaults = () => ({
    });
    const create = (() => {
        return uniffiCreateRecord<Picture, ReturnType<typeof defaults>>(defaults);
    })();
    return Object.freeze({
        create,
        new: create,
        defaults: () => Object.freeze(defaults()) as Partial<Picture>,
    });
})();

const FfiConverterTypePicture = (() => {
    type TypeName = Picture;
    class FFIConverter extends AbstractFfiConverterByteArray<TypeName> {
        readFromCursor(c: Cursor): TypeName {
            return {
                media: FfiConverterString.readFromCursor(c),
                bytes: FfiConverterUint8Array.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.media, c);
            FfiConverterUint8Array.writeIntoCursor(value.bytes, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.media) +
             FfiConverterUint8Array.allocationSize(value.bytes);

        }
    };
    return new FFIConverter();
})();

/**
 * What was typed, read: one amount, or two to choose from, or none and why.
 */
export type ReadAmount = {
    /**
     * Exactly what was typed.
     */
    text: string,
    /**
     * One where the text says one thing; two, with decimals and with thousands, where only whoever typed it knows;
     * none where it is no amount.
     */
    readings: Array<AmountReading>,
    /**
     * Why it is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`, `two_readings`, `cannot_be`,
     * `other_kind`. Empty where it is one.
     */
    refused: string,
    /**
     * The same in an English sentence.
     */
    why: string
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
                readings: FfiConverterSequenceTypeAmountReading.readFromCursor(c),
                refused: FfiConverterString.readFromCursor(c),
                why: FfiConverterString.readFromCursor(c)
            };
        }
        writeIntoCursor(value: TypeName, c: Cursor): void {
            FfiConverterString.writeIntoCursor(value.text, c);
            FfiConverterSequenceTypeAmountReading.writeIntoCursor(value.readings, c);
            FfiConverterString.writeIntoCursor(value.refused, c);
            FfiConverterString.writeIntoCursor(value.why, c);
        }
        allocationSize(value: TypeName): number {
            return FfiConverterString.allocationSize(value.text) +
             FfiConverterSequenceTypeAmountReading.allocationSize(value.readings) +
             FfiConverterString.allocationSize(value.refused) +
             FfiConverterString.allocationSize(value.why);

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
    NotTheOffice = "NotTheOffice",
    NotEnrolled = "NotEnrolled",
    WeakPin = "WeakPin",
    WrongPin = "WrongPin",
    PinWaits = "PinWaits",
    KeyLocked = "KeyLocked",
    KeyEnded = "KeyEnded",
    NoKey = "NoKey",
    HasKey = "HasKey",
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

    type NotTheOffice__interface = {
        tag: Trouble_Tags.NotTheOffice;
        inner:
Readonly<{why: string}>
    };
    /**
     * What answered is not the office server: a login page in between, or another address.
     */
    class NotTheOffice_ extends UniffiError implements NotTheOffice__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.NotTheOffice;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "NotTheOffice");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): NotTheOffice_ {
            return new NotTheOffice_(inner);
        }

        static instanceOf(obj: any): obj is NotTheOffice_ {
            return obj.tag === Trouble_Tags.NotTheOffice;
        }
        static hasInner(obj: any): obj is NotTheOffice_ {
            return NotTheOffice_.instanceOf(obj);
        }

        static getInner(obj: NotTheOffice_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type NotEnrolled__interface = {
        tag: Trouble_Tags.NotEnrolled;
        inner:
Readonly<{why: string}>
    };
    /**
     * This device has not been enrolled yet: records are kept, but nothing is sent.
     */
    class NotEnrolled_ extends UniffiError implements NotEnrolled__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.NotEnrolled;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "NotEnrolled");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): NotEnrolled_ {
            return new NotEnrolled_(inner);
        }

        static instanceOf(obj: any): obj is NotEnrolled_ {
            return obj.tag === Trouble_Tags.NotEnrolled;
        }
        static hasInner(obj: any): obj is NotEnrolled_ {
            return NotEnrolled_.instanceOf(obj);
        }

        static getInner(obj: NotEnrolled_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type WeakPin__interface = {
        tag: Trouble_Tags.WeakPin;
        inner:
Readonly<{why: string}>
    };
    /**
     * A PIN that is not six digits, or among the first that anybody tries: choose another.
     */
    class WeakPin_ extends UniffiError implements WeakPin__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.WeakPin;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "WeakPin");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): WeakPin_ {
            return new WeakPin_(inner);
        }

        static instanceOf(obj: any): obj is WeakPin_ {
            return obj.tag === Trouble_Tags.WeakPin;
        }
        static hasInner(obj: any): obj is WeakPin_ {
            return WeakPin_.instanceOf(obj);
        }

        static getInner(obj: WeakPin_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type WrongPin__interface = {
        tag: Trouble_Tags.WrongPin;
        inner:
Readonly<{why: string; left: number}>
    };
    /**
     * The PIN was wrong: try again, or say it is forgotten.
     */
    class WrongPin_ extends UniffiError implements WrongPin__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.WrongPin;
        readonly inner:
Readonly<{why: string; left: number}>;
        constructor(
inner: {why: string; left: number }) {
            super("Trouble", "WrongPin");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; left: number }): WrongPin_ {
            return new WrongPin_(inner);
        }

        static instanceOf(obj: any): obj is WrongPin_ {
            return obj.tag === Trouble_Tags.WrongPin;
        }
        static hasInner(obj: any): obj is WrongPin_ {
            return WrongPin_.instanceOf(obj);
        }

        static getInner(obj: WrongPin_):
Readonly<{why: string; left: number}> {
            return obj.inner;
        }

    }

    type PinWaits__interface = {
        tag: Trouble_Tags.PinWaits;
        inner:
Readonly<{why: string; until: bigint}>
    };
    /**
     * Too many wrong tries: wait, or say it is forgotten.
     */
    class PinWaits_ extends UniffiError implements PinWaits__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.PinWaits;
        readonly inner:
Readonly<{why: string; until: bigint}>;
        constructor(
inner: {why: string; until: bigint }) {
            super("Trouble", "PinWaits");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string; until: bigint }): PinWaits_ {
            return new PinWaits_(inner);
        }

        static instanceOf(obj: any): obj is PinWaits_ {
            return obj.tag === Trouble_Tags.PinWaits;
        }
        static hasInner(obj: any): obj is PinWaits_ {
            return PinWaits_.instanceOf(obj);
        }

        static getInner(obj: PinWaits_):
Readonly<{why: string; until: bigint}> {
            return obj.inner;
        }

    }

    type KeyLocked__interface = {
        tag: Trouble_Tags.KeyLocked;
        inner:
Readonly<{why: string}>
    };
    /**
     * The key is locked here for good: tell the office, and make a new one.
     */
    class KeyLocked_ extends UniffiError implements KeyLocked__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.KeyLocked;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "KeyLocked");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): KeyLocked_ {
            return new KeyLocked_(inner);
        }

        static instanceOf(obj: any): obj is KeyLocked_ {
            return obj.tag === Trouble_Tags.KeyLocked;
        }
        static hasInner(obj: any): obj is KeyLocked_ {
            return KeyLocked_.instanceOf(obj);
        }

        static getInner(obj: KeyLocked_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type KeyEnded__interface = {
        tag: Trouble_Tags.KeyEnded;
        inner:
Readonly<{why: string}>
    };
    /**
     * The office ended the key: make a new one.
     */
    class KeyEnded_ extends UniffiError implements KeyEnded__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.KeyEnded;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "KeyEnded");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): KeyEnded_ {
            return new KeyEnded_(inner);
        }

        static instanceOf(obj: any): obj is KeyEnded_ {
            return obj.tag === Trouble_Tags.KeyEnded;
        }
        static hasInner(obj: any): obj is KeyEnded_ {
            return KeyEnded_.instanceOf(obj);
        }

        static getInner(obj: KeyEnded_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type NoKey__interface = {
        tag: Trouble_Tags.NoKey;
        inner:
Readonly<{why: string}>
    };
    /**
     * This person has no key here: make one, or go on without.
     */
    class NoKey_ extends UniffiError implements NoKey__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.NoKey;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "NoKey");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): NoKey_ {
            return new NoKey_(inner);
        }

        static instanceOf(obj: any): obj is NoKey_ {
            return obj.tag === Trouble_Tags.NoKey;
        }
        static hasInner(obj: any): obj is NoKey_ {
            return NoKey_.instanceOf(obj);
        }

        static getInner(obj: NoKey_):
Readonly<{why: string}> {
            return obj.inner;
        }

    }

    type HasKey__interface = {
        tag: Trouble_Tags.HasKey;
        inner:
Readonly<{why: string}>
    };
    /**
     * This person has a key here already: unlock it, or say its PIN is forgotten.
     */
    class HasKey_ extends UniffiError implements HasKey__interface {
        /**
         * @private
         * This field is private and should not be used, use `tag` instead.
         */
        readonly [uniffiTypeNameSymbol] = "Trouble";
        readonly tag = Trouble_Tags.HasKey;
        readonly inner:
Readonly<{why: string}>;
        constructor(
inner: {why: string }) {
            super("Trouble", "HasKey");

            this.inner = Object.freeze(inner);
        }
        static new(
inner: {why: string }): HasKey_ {
            return new HasKey_(inner);
        }

        static instanceOf(obj: any): obj is HasKey_ {
            return obj.tag === Trouble_Tags.HasKey;
        }
        static hasInner(obj: any): obj is HasKey_ {
            return HasKey_.instanceOf(obj);
        }

        static getInner(obj: HasKey_):
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
  NotTheOffice: NotTheOffice_,
  NotEnrolled: NotEnrolled_,
  WeakPin: WeakPin_,
  WrongPin: WrongPin_,
  PinWaits: PinWaits_,
  KeyLocked: KeyLocked_,
  KeyEnded: KeyEnded_,
  NoKey: NoKey_,
  HasKey: HasKey_,
  WrongCall: WrongCall_
    });

})();
/**
 * What went wrong, as far as the caller can do something about it.
 *
 * `why` is for the log and the support call, in English, never the only thing shown.
 */
export type Trouble = InstanceType<
    typeof Trouble['OpenElsewhere' | 'NoStorage' | 'NotStored' | 'Refused' | 'NotTheOffice' | 'NotEnrolled' | 'WeakPin' | 'WrongPin' | 'PinWaits' | 'KeyLocked' | 'KeyEnded' | 'NoKey' | 'HasKey' | 'WrongCall']
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
                case 5: return new Trouble.NotTheOffice({why: FfiConverterString.readFromCursor(c) });
                case 6: return new Trouble.NotEnrolled({why: FfiConverterString.readFromCursor(c) });
                case 7: return new Trouble.WeakPin({why: FfiConverterString.readFromCursor(c) });
                case 8: return new Trouble.WrongPin({why: FfiConverterString.readFromCursor(c), left: FfiConverterUInt32.readFromCursor(c) });
                case 9: return new Trouble.PinWaits({why: FfiConverterString.readFromCursor(c), until: FfiConverterInt64.readFromCursor(c) });
                case 10: return new Trouble.KeyLocked({why: FfiConverterString.readFromCursor(c) });
                case 11: return new Trouble.KeyEnded({why: FfiConverterString.readFromCursor(c) });
                case 12: return new Trouble.NoKey({why: FfiConverterString.readFromCursor(c) });
                case 13: return new Trouble.HasKey({why: FfiConverterString.readFromCursor(c) });
                case 14: return new Trouble.WrongCall({why: FfiConverterString.readFromCursor(c) });
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
                case Trouble_Tags.NotTheOffice: {
                    c.writeI32(5);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.NotEnrolled: {
                    c.writeI32(6);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.WeakPin: {
                    c.writeI32(7);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.WrongPin: {
                    c.writeI32(8);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterUInt32.writeIntoCursor(inner.left, c);
                    return;
                }
                case Trouble_Tags.PinWaits: {
                    c.writeI32(9);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    FfiConverterInt64.writeIntoCursor(inner.until, c);
                    return;
                }
                case Trouble_Tags.KeyLocked: {
                    c.writeI32(10);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.KeyEnded: {
                    c.writeI32(11);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.NoKey: {
                    c.writeI32(12);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.HasKey: {
                    c.writeI32(13);
                    const inner = value.inner;
                    FfiConverterString.writeIntoCursor(inner.why, c);
                    return;
                }
                case Trouble_Tags.WrongCall: {
                    c.writeI32(14);
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
                case Trouble_Tags.NotTheOffice: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.NotEnrolled: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.WeakPin: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.WrongPin: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterUInt32.allocationSize(inner.left);
                    return size;
                }
                case Trouble_Tags.PinWaits: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    size += FfiConverterInt64.allocationSize(inner.until);
                    return size;
                }
                case Trouble_Tags.KeyLocked: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.KeyEnded: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.NoKey: {
                    const inner = value.inner;
                    let size = 4;
                    size += FfiConverterString.allocationSize(inner.why);
                    return size;
                }
                case Trouble_Tags.HasKey: {
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
 * Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
 * when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.
 *
 * # Errors
 * `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
 * `NotStored` when the disk refuses.
 */
    append(subject: string, drafts: string, operator: string) /*throws*/: Array<string>;
/**
 * Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.
 *
 * # Errors
 * `WrongCall` for other JSON.
 */
    binds(drafts: string) /*throws*/: boolean;
/**
 * Hands over the next photograph of the carry file taken in last, once; nothing when there are no
 * more. The shell keeps the bytes and says so with `photo_taken`.
 */
    carriedPhoto(): Picture | undefined;
/**
 * Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
 * to be had from `carried_photo`.
 *
 * # Errors
 * `Refused` when it is none.
 */
    carryIn(file: Uint8Array) /*throws*/: string;
/**
 * Writes visits with their cars, sites and people into a carry file, with the photographs handed to
 * `carry_photo` since the last one.
 *
 * # Errors
 * `WrongCall` for an unknown visit.
 */
    carryOut(visits: Array<string>) /*throws*/: Uint8Array;
/**
 * Takes a photograph's exact bytes for the next carry file, one at a time.
 *
 * # Errors
 * `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
 */
    carryPhoto(bytes: Uint8Array) /*throws*/: void;
/**
 * Gives a person's key another PIN. Takes about two seconds.
 *
 * # Errors
 * As `unlock_person`, and `WeakPin`; the old PIN then stays.
 */
    changePin(person: string, oldPin: string, newPin: string) /*throws*/: void;
/**
 * This device: its public key in hexadecimal.
 */
    device(): string;
/**
 * Everything half typed, as JSON: key -> text.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    drafts() /*throws*/: string;
/**
 * The signed request to send to the office's enrolment address with a one-time code. The office says
 * its key and its time (milliseconds since 1970) when that address is asked who it is.
 *
 * # Errors
 * `WrongCall` when the key is none.
 */
    enrolRequest(code: string, name: string, organisationKey: string, serverTime: bigint) /*throws*/: Uint8Array;
/**
 * Takes the office's answer to an enrolment.
 *
 * # Errors
 * `Refused` when the certificate is not this device's or not that organisation's.
 */
    enrolled(organisationKey: string, certificate: Uint8Array) /*throws*/: void;
/**
 * As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
 * that signed the certificate may be one the root named.
 *
 * # Errors
 * As `enrolled`.
 */
    enrolledWith(organisationKey: string, keyStatements: Array<Uint8Array>, certificate: Uint8Array) /*throws*/: void;
/**
 * Rows of stays whose car number, seal number or spot contains `text`, as JSON.
 *
 * # Errors
 * None today.
 */
    find(text: string) /*throws*/: string;
/**
 * Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
 * it signed stays signed.
 *
 * # Errors
 * `NoKey`, `NotStored`.
 */
    forgetPersonKey(person: string) /*throws*/: void;
/**
 * Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
 * with `new_key` and apart from the book's own storage. PINs are worth nothing without it.
 *
 * # Errors
 * `WrongCall` for another length.
 */
    keepBeside(secret: Uint8Array) /*throws*/: void;
/**
 * Forgets whoever is unlocked: the shift is over, or the phone changes hands.
 */
    lockPeople(): void;
/**
 * Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
 * [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.
 *
 * # Errors
 * `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
 */
    logReceive(reply: Uint8Array) /*throws*/: string;
/**
 * The next request's body for the office's log address, after a sync; nothing when there is nothing to
 * ask. Call again after `log_receive` says more is to come, or when a reply got lost.
 *
 * # Errors
 * `NotEnrolled`.
 */
    logRequest() /*throws*/: Uint8Array | undefined;
/**
 * Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
 * about a second. Returns the key's sixteen digits, for the telephone.
 *
 * # Errors
 * `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
 */
    makePersonKey(person: string, pin: string) /*throws*/: string;
/**
 * A new site's id, for its first entry.
 */
    newSite(): string;
/**
 * Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
 * default. Returns the visit's id.
 *
 * # Errors
 * `WrongCall` for other JSON, `NotStored` when the disk refuses.
 */
    openVisit(opening: string, operator: string) /*throws*/: string;
/**
 * How many stays are over, and rows of at most `most` of them after the first `from`, begun last
 * first. JSON: `{of, rows}`.
 *
 * # Errors
 * None today.
 */
    over(from: number, most: number) /*throws*/: string;
/**
 * Passes over a blocker, with a reason that the record shows for ever.
 *
 * # Errors
 * `Refused` without a reason, or when nothing of that code blocks now.
 */
    passOver(visit: string, blocker: string, why: string, operator: string) /*throws*/: Array<string>;
/**
 * The signed request for a pass to the office's photographs.
 *
 * # Errors
 * `NotEnrolled`.
 */
    passRequest() /*throws*/: Uint8Array;
/**
 * The people of the organisation, as JSON.
 *
 * # Errors
 * None today.
 */
    people() /*throws*/: string;
/**
 * Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
 * how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
 * rules: {operator_rights?, unlocking, signature_required}, can_make}`.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    peopleHere() /*throws*/: string;
/**
 * Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
 * Returns the photograph as statements name it, as JSON.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    photoTaken(sha256: string, length: bigint, media: string) /*throws*/: string;
/**
 * The photographs that visits speak of and whose bytes are here, those first that the office is not
 * known to hold. JSON: `[{sha256, length, media}]`.
 *
 * # Errors
 * `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
 */
    photosOf(visits: Array<string>) /*throws*/: string;
/**
 * Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
 * sending them shortens the list.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    photosWaiting() /*throws*/: string;
/**
 * The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
 * means, with its uncertainty, while it is being typed.
 *
 * # Errors
 * As `append`.
 */
    preview(visit: string, drafts: string, operator: string) /*throws*/: string;
/**
 * Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.
 *
 * # Errors
 * As `append`; a skipped step needs a note.
 */
    recordStep(visit: string, step: string, outcome: string, note: string, drafts: string, operator: string) /*throws*/: Array<string>;
/**
 * Releases the car.
 *
 * # Errors
 * `Refused`, naming what is still open and was not passed over.
 */
    release(visit: string, asResidue: boolean, operator: string) /*throws*/: Array<string>;
/**
 * Keeps something half typed under a key; empty text removes it.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    setDraft(key: string, text: string) /*throws*/: void;
/**
 * Settles the disagreement that entry `keeps` is part of in its favour.
 *
 * # Errors
 * `Refused` without a reason, or when nothing disagrees about it.
 */
    settle(visit: string, keeps: string, why: string, operator: string) /*throws*/: Array<string>;
/**
 * A whole stay in plain words.
 *
 * # Errors
 * As `visit`.
 */
    show(visit: string) /*throws*/: string;
/**
 * The sites known here, by id, as JSON.
 *
 * # Errors
 * None today.
 */
    sites() /*throws*/: string;
/**
 * Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
 * JSON. What a phone shows first.
 *
 * # Errors
 * None today.
 */
    standing() /*throws*/: string;
/**
 * How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
 * stands, as JSON.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    status() /*throws*/: string;
/**
 * Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
 * ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
 * names the records that still differ from the office's.
 *
 * # Errors
 * `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
 * be called again.
 */
    syncReceive(reply: Uint8Array) /*throws*/: string;
/**
 * The next request's body.
 *
 * # Errors
 * `WrongCall` before `sync_start`.
 */
    syncRequest() /*throws*/: Uint8Array;
/**
 * Begins a sync with the office; ask for requests until a reply says done.
 *
 * # Errors
 * `NotEnrolled`.
 */
    syncStart() /*throws*/: void;
/**
 * Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
 * Takes about a second.
 *
 * # Errors
 * `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
 */
    unlockPerson(person: string, pin: string) /*throws*/: void;
/**
 * A whole stay, as JSON.
 *
 * # Errors
 * `WrongCall` when it is not on this device.
 */
    visit(visit: string) /*throws*/: string;
/**
 * One row per stay, as JSON.
 *
 * # Errors
 * None today.
 */
    visits() /*throws*/: string;
/**
 * Takes an entry back; nothing stands in its place.
 *
 * # Errors
 * `Refused` without a reason, or when the record has no such entry.
 */
    withdraw(visit: string, entry: string, why: string, operator: string) /*throws*/: Array<string>;
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
 * file was written by a later version.
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
 * Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
 * when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.
 *
 * # Errors
 * `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
 * `NotStored` when the disk refuses.
 */
    append(subject: string, drafts: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_append(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(subject, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.
 *
 * # Errors
 * `WrongCall` for other JSON.
 */
    binds(drafts: string): boolean /*throws*/ {
    return FfiConverterBool.lift(uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_binds(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    ));
    }

/**
 * Hands over the next photograph of the carry file taken in last, once; nothing when there are no
 * more. The shell keeps the bytes and says so with `photo_taken`.
 */
    carriedPhoto(): Picture | undefined {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carried_photo(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterOptionalTypePicture.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
 * to be had from `carried_photo`.
 *
 * # Errors
 * `Refused` when it is none.
 */
    carryIn(file: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_in(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(file, nativeModule().rustbuffer_alloc),
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
 * Writes visits with their cars, sites and people into a carry file, with the photographs handed to
 * `carry_photo` since the last one.
 *
 * # Errors
 * `WrongCall` for an unknown visit.
 */
    carryOut(visits: Array<string>): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_out(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterSequenceString.lower(visits, nativeModule().rustbuffer_alloc),
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
 * Takes a photograph's exact bytes for the next carry file, one at a time.
 *
 * # Errors
 * `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
 */
    carryPhoto(bytes: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_carry_photo(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(bytes, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Gives a person's key another PIN. Takes about two seconds.
 *
 * # Errors
 * As `unlock_person`, and `WeakPin`; the old PIN then stays.
 */
    changePin(person: string, oldPin: string, newPin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_change_pin(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(oldPin, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(newPin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * This device: its public key in hexadecimal.
 */
    device(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_device(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Everything half typed, as JSON: key -> text.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    drafts(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_drafts(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * The signed request to send to the office's enrolment address with a one-time code. The office says
 * its key and its time (milliseconds since 1970) when that address is asked who it is.
 *
 * # Errors
 * `WrongCall` when the key is none.
 */
    enrolRequest(code: string, name: string, organisationKey: string, serverTime: bigint): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_enrol_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(code, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(name, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterInt64.lower(serverTime, nativeModule().rustbuffer_alloc),
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
 * Takes the office's answer to an enrolment.
 *
 * # Errors
 * `Refused` when the certificate is not this device's or not that organisation's.
 */
    enrolled(organisationKey: string, certificate: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_enrolled(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(certificate, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
 * that signed the certificate may be one the root named.
 *
 * # Errors
 * As `enrolled`.
 */
    enrolledWith(organisationKey: string, keyStatements: Array<Uint8Array>, certificate: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_enrolled_with(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(organisationKey, nativeModule().rustbuffer_alloc),
        FfiConverterSequenceBytes.lower(keyStatements, nativeModule().rustbuffer_alloc),
        FfiConverterUint8Array.lower(certificate, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Rows of stays whose car number, seal number or spot contains `text`, as JSON.
 *
 * # Errors
 * None today.
 */
    find(text: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_find(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
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
 * Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
 * it signed stays signed.
 *
 * # Errors
 * `NoKey`, `NotStored`.
 */
    forgetPersonKey(person: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_forget_person_key(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
 * with `new_key` and apart from the book's own storage. PINs are worth nothing without it.
 *
 * # Errors
 * `WrongCall` for another length.
 */
    keepBeside(secret: Uint8Array): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_keep_beside(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(secret, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Forgets whoever is unlocked: the shift is over, or the phone changes hands.
 */
    lockPeople(): void {uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_lock_people(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
 * [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.
 *
 * # Errors
 * `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
 */
    logReceive(reply: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_log_receive(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(reply, nativeModule().rustbuffer_alloc),
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
 * The next request's body for the office's log address, after a sync; nothing when there is nothing to
 * ask. Call again after `log_receive` says more is to come, or when a reply got lost.
 *
 * # Errors
 * `NotEnrolled`.
 */
    logRequest(): Uint8Array | undefined /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_log_request(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterOptionalBytes.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
 * about a second. Returns the key's sixteen digits, for the telephone.
 *
 * # Errors
 * `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
 */
    makePersonKey(person: string, pin: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_make_person_key(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
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
 * A new site's id, for its first entry.
 */
    newSite(): string {
    const __rb: Uint8Array = uniffiCaller.rustCall(
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_new_site(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
 * default. Returns the visit's id.
 *
 * # Errors
 * `WrongCall` for other JSON, `NotStored` when the disk refuses.
 */
    openVisit(opening: string, operator: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_open_visit(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(opening, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
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
 * How many stays are over, and rows of at most `most` of them after the first `from`, begun last
 * first. JSON: `{of, rows}`.
 *
 * # Errors
 * None today.
 */
    over(from: number, most: number): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_over(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUInt32.lower(from, nativeModule().rustbuffer_alloc),
        FfiConverterUInt32.lower(most, nativeModule().rustbuffer_alloc),
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
 * Passes over a blocker, with a reason that the record shows for ever.
 *
 * # Errors
 * `Refused` without a reason, or when nothing of that code blocks now.
 */
    passOver(visit: string, blocker: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_pass_over(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(blocker, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * The signed request for a pass to the office's photographs.
 *
 * # Errors
 * `NotEnrolled`.
 */
    passRequest(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_pass_request(
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
 * The people of the organisation, as JSON.
 *
 * # Errors
 * None today.
 */
    people(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_people(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
 * how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
 * rules: {operator_rights?, unlocking, signature_required}, can_make}`.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    peopleHere(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_people_here(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
 * Returns the photograph as statements name it, as JSON.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    photoTaken(sha256: string, length: bigint, media: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photo_taken(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(sha256, nativeModule().rustbuffer_alloc),
        FfiConverterUInt64.lower(length, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(media, nativeModule().rustbuffer_alloc),
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
 * The photographs that visits speak of and whose bytes are here, those first that the office is not
 * known to hold. JSON: `[{sha256, length, media}]`.
 *
 * # Errors
 * `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
 */
    photosOf(visits: Array<string>): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photos_of(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterSequenceString.lower(visits, nativeModule().rustbuffer_alloc),
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
 * Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
 * sending them shortens the list.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    photosWaiting(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_photos_waiting(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
 * means, with its uncertainty, while it is being typed.
 *
 * # Errors
 * As `append`.
 */
    preview(visit: string, drafts: string, operator: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_preview(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
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
 * Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.
 *
 * # Errors
 * As `append`; a skipped step needs a note.
 */
    recordStep(visit: string, step: string, outcome: string, note: string, drafts: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_record_step(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(step, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(outcome, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(note, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(drafts, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Releases the car.
 *
 * # Errors
 * `Refused`, naming what is still open and was not passed over.
 */
    release(visit: string, asResidue: boolean, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_release(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterBool.lower(asResidue, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * Keeps something half typed under a key; empty text removes it.
 *
 * # Errors
 * `NotStored` when the disk refuses.
 */
    setDraft(key: string, text: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_set_draft(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(key, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(text, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Settles the disagreement that entry `keeps` is part of in its favour.
 *
 * # Errors
 * `Refused` without a reason, or when nothing disagrees about it.
 */
    settle(visit: string, keeps: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_settle(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(keeps, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
    }

/**
 * A whole stay in plain words.
 *
 * # Errors
 * As `visit`.
 */
    show(visit: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_show(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
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
 * The sites known here, by id, as JSON.
 *
 * # Errors
 * None today.
 */
    sites(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sites(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
 * JSON. What a phone shows first.
 *
 * # Errors
 * None today.
 */
    standing(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_standing(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
 * stands, as JSON.
 *
 * # Errors
 * `NotStored` when the disk cannot be read.
 */
    status(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_status(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
 * ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
 * names the records that still differ from the office's.
 *
 * # Errors
 * `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
 * be called again.
 */
    syncReceive(reply: Uint8Array): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_receive(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterUint8Array.lower(reply, nativeModule().rustbuffer_alloc),
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
 * The next request's body.
 *
 * # Errors
 * `WrongCall` before `sync_start`.
 */
    syncRequest(): Uint8Array /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_request(
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
 * Begins a sync with the office; ask for requests until a reply says done.
 *
 * # Errors
 * `NotEnrolled`.
 */
    syncStart(): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_sync_start(
                uniffiTypeBookObjectFactory.clonePointer(this),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
 * Takes about a second.
 *
 * # Errors
 * `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
 */
    unlockPerson(person: string, pin: string): void /*throws*/ {uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => { nativeModule().uniffi_farsiding_bindings_fn_method_book_unlock_person(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(person, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(pin, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    }

/**
 * A whole stay, as JSON.
 *
 * # Errors
 * `WrongCall` when it is not on this device.
 */
    visit(visit: string): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_visit(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
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
 * One row per stay, as JSON.
 *
 * # Errors
 * None today.
 */
    visits(): string /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_visits(
                uniffiTypeBookObjectFactory.clonePointer(this),
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
 * Takes an entry back; nothing stands in its place.
 *
 * # Errors
 * `Refused` without a reason, or when the record has no such entry.
 */
    withdraw(visit: string, entry: string, why: string, operator: string): Array<string> /*throws*/ {
    const __rb: Uint8Array = uniffiCaller.rustCallWithError(
            /*liftError:*/ FfiConverterTypeTrouble.lift.bind(FfiConverterTypeTrouble),
            /*caller:*/ (callStatus) => {
                return nativeModule().uniffi_farsiding_bindings_fn_method_book_withdraw(
                uniffiTypeBookObjectFactory.clonePointer(this),
        FfiConverterString.lower(visit, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(entry, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(why, nativeModule().rustbuffer_alloc),
        FfiConverterString.lower(operator, nativeModule().rustbuffer_alloc),
                callStatus);
            },
            /*liftString:*/ FfiConverterString.lift.bind(FfiConverterString),
    );
    try {
        return FfiConverterSequenceString.lift(__rb);
    } finally {
        nativeModule().rustbuffer_free(__rb);
    }
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

// FfiConverter for Array<AmountReading>
const FfiConverterSequenceTypeAmountReading = new FfiConverterArray(FfiConverterTypeAmountReading);

// FfiConverter for Array<string>
const FfiConverterSequenceString = new FfiConverterArray(FfiConverterString);

// FfiConverter for Picture | undefined
const FfiConverterOptionalTypePicture = new FfiConverterOptional(FfiConverterTypePicture);

// FfiConverter for Array<Uint8Array>
const FfiConverterSequenceBytes = new FfiConverterArray(FfiConverterUint8Array);

// FfiConverter for Uint8Array | undefined
const FfiConverterOptionalBytes = new FfiConverterOptional(FfiConverterUint8Array);

// FfiConverter for string | undefined
const FfiConverterOptionalString = new FfiConverterOptional(FfiConverterString);


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
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_calculate() !== 57635) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_calculate");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_core_version() !== 5233) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_core_version");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_formulas() !== 59462) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_formulas");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_new_key() !== 36954) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_new_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() !== 63421) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_pin_storage_key() !== 6534) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_pin_storage_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_prepare_storage() !== 59990) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_prepare_storage");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_func_read_amount() !== 39637) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_func_read_amount");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_constructor_book_open() !== 946) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_constructor_book_open");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_append() !== 54987) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_append");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_binds() !== 14993) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_binds");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carried_photo() !== 24168) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carried_photo");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_in() !== 6974) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_in");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_out() !== 23899) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_out");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_carry_photo() !== 63051) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_carry_photo");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_change_pin() !== 64846) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_change_pin");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_device() !== 9324) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_device");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_drafts() !== 19836) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_drafts");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrol_request() !== 1650) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrol_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrolled() !== 58253) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrolled");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_enrolled_with() !== 46008) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_enrolled_with");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_find() !== 24144) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_find");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_forget_person_key() !== 8353) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_forget_person_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_keep_beside() !== 17064) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_keep_beside");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_lock_people() !== 35549) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_lock_people");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_log_receive() !== 56512) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_log_receive");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_log_request() !== 60942) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_log_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_make_person_key() !== 19135) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_make_person_key");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_new_site() !== 47209) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_new_site");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_open_visit() !== 37032) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_open_visit");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_over() !== 52897) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_over");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_pass_over() !== 42777) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_pass_over");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_pass_request() !== 43067) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_pass_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_people() !== 58133) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_people");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_people_here() !== 61734) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_people_here");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photo_taken() !== 45557) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photo_taken");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photos_of() !== 21127) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photos_of");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_photos_waiting() !== 21381) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_photos_waiting");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_preview() !== 38799) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_preview");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_record_step() !== 44668) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_record_step");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_release() !== 47381) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_release");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_set_draft() !== 47434) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_set_draft");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_settle() !== 39182) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_settle");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_show() !== 57003) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_show");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sites() !== 32737) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sites");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_standing() !== 2301) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_standing");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_status() !== 61795) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_status");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_receive() !== 6041) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_receive");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_request() !== 49957) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_request");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_sync_start() !== 60695) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_sync_start");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_unlock_person() !== 59843) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_unlock_person");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_visit() !== 26207) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_visit");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_visits() !== 55744) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_visits");
    }
    if (nativeModule().uniffi_farsiding_bindings_checksum_method_book_withdraw() !== 8616) {
        throw new UniffiInternalError.ApiChecksumMismatch("uniffi_farsiding_bindings_checksum_method_book_withdraw");
    }

    }

export default Object.freeze({
  initialize: uniffiEnsureInitialized,
  converters: {
    FfiConverterTypeAmountReading,
    FfiConverterTypeBook,
    FfiConverterTypePicture,
    FfiConverterTypeReadAmount,
    FfiConverterTypeTrouble,
  }
});
