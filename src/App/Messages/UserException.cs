namespace Harkbook.App.Messages;

/// <summary>Thrown by commands for a file, a folder or the disk that a user can mend; the message says what is wrong, where, and what to do.</summary>
internal class UserException(string message) : Exception(message);
