using System.Buffers.Binary;
using System.Reflection.Emit;
using System.Reflection.Metadata;

namespace Catalogue.Texts;

/// <summary>The instructions of a method body, one after another.</summary>
internal static class Instructions
{
    private static readonly Dictionary<ILOpCode, OperandType> Operands = typeof(OpCodes).GetFields()
        .Select(f => f.GetValue(null)).OfType<OpCode>().ToDictionary(o => (ILOpCode)unchecked((ushort)o.Value), o => o.OperandType);

    public static IEnumerable<(ILOpCode Op, int Token)> Of(byte[] code)
    {
        for (var at = 0; at < code.Length;)
        {
            var op = (ILOpCode)code[at++];
            if ((int)op == 0xFE) op = (ILOpCode)(0xFE00 | code[at++]);
            var operand = Operands[op];
            var token = operand switch
            {
                OperandType.ShortInlineI => (sbyte)code[at],
                OperandType.InlineI or OperandType.InlineString or OperandType.InlineMethod => BinaryPrimitives.ReadInt32LittleEndian(code.AsSpan(at)),
                _ => 0,
            };
            yield return (op, token);
            at += operand switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BinaryPrimitives.ReadInt32LittleEndian(code.AsSpan(at))),
                _ => 4,
            };
        }
    }

    /// <summary>The whole number that an instruction puts on the stack.</summary>
    public static int? Constant(ILOpCode op, int token) => op switch
    {
        ILOpCode.Ldc_i4 or ILOpCode.Ldc_i4_s => token,
        ILOpCode.Ldc_i4_m1 => -1,
        >= ILOpCode.Ldc_i4_0 and <= ILOpCode.Ldc_i4_8 => op - ILOpCode.Ldc_i4_0,
        _ => null,
    };
}
